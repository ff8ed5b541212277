import { unitCode, unitConverter, unitText, withUnit } from '../../records/units.ts';
import type { Distribution } from '../../statistics/monte-carlo.ts';
import { printedNumber } from '../../statistics/number-notation.ts';
import { linearStackup, productStackup, type Stackup } from '../../statistics/stackup.ts';
import { percent } from '../number-text.ts';
import type { EvidenceTable } from '../result.ts';
import {
  type Calculation,
  type CalculationInput,
  type CalculationOutcome,
  choiceAt,
  type InputProblem,
} from './calculation.ts';
import { type OutputCharacteristic, outputCharacteristic } from './output-characteristic.ts';
import { distributions, judgeSpread, readSpreadOptions } from './spread-judgement.ts';

interface Term extends OutputCharacteristic {
  readonly weight: number;
  readonly distribution?: Distribution;
}

/**
 * Factor from the unit that a form gives to the unit of the limit: a bore in mm squared times a pitch in mm is in
 * mm³. Undefined where the two measure different quantities, or a power is no whole number.
 */
const productFactor = (terms: readonly Term[], constantUnit: string, target: string): number | undefined => {
  if (terms.some((term) => !Number.isInteger(term.weight) || Math.abs(term.weight) > 6)) return undefined;
  // UCUM has no powers of brackets, so the unit is written out as often as it counts.
  const factors = terms.map(({ unit, weight }) =>
    (weight < 0 ? `/(${unitCode(unit)})` : `.(${unitCode(unit)})`).repeat(Math.abs(weight)),
  );
  const convert = unitConverter(`(${unitCode(constantUnit)})${factors.join('')}`, target);
  return convert ? convert(1) - convert(0) : undefined;
};

const readTerms = ({ analysis, graph }: CalculationInput, problems: InputProblem[]): Term[] => {
  const list: unknown = analysis.fields.calculation.terms;
  if (!Array.isArray(list) || list.length === 0) {
    problems.push({
      path: ['terms'],
      message:
        'calculation.terms is missing: a list of output, characteristic and power (product) or sensitivity (sum)',
    });
    return [];
  }
  return list.flatMap((each: unknown, index): Term[] => {
    const term = (each ?? {}) as Record<string, unknown>;
    const found = outputCharacteristic(graph, term, ['terms', index], problems);
    if (!found) return [];
    const weight = term['power'] ?? term['sensitivity'] ?? 1;
    if (typeof weight !== 'number' || !Number.isFinite(weight))
      problems.push({ path: ['terms', index], message: 'power or sensitivity is not a number' });
    const distribution =
      term['distribution'] === undefined
        ? {}
        : { distribution: choiceAt(term, 'distribution', [...distributions], problems) };
    return [{ ...found, weight: Number(weight), ...distribution }];
  });
};

/** What a reader needs to repeat the sum or the product by hand. */
const termTable = (
  terms: readonly Term[],
  form: 'sum' | 'product',
  { contributions, rootSumSquare }: Stackup,
  unit: string,
): EvidenceTable => ({
  title: form === 'sum' ? 'Terms of the sum' : 'Factors of the product',
  columns: [
    form === 'sum' ? 'term' : 'factor',
    'nominal',
    'plus',
    'minus',
    'middle',
    form === 'sum' ? 'sensitivity' : 'power',
    `half width of the result${unit === '1' ? '' : ` [${unitText(unit)}]`}`,
    'share',
  ],
  rows: terms.map(({ name, nominal, plus, minus, unit: own, weight }, index) => {
    const share = contributions[index] ?? 0;
    const short = (value: number): string => printedNumber(String(Number(value.toPrecision(6))));
    return [
      name,
      withUnit(printedNumber(String(nominal)), own),
      plus === 0 && minus === 0 ? 'exact' : printedNumber(String(plus)),
      plus === 0 && minus === 0 ? 'exact' : printedNumber(String(minus)),
      short(nominal + (plus - minus) / 2),
      printedNumber(String(weight)),
      short(Math.sqrt(share) * rootSumSquare.halfWidth),
      percent(share, 1),
    ];
  }),
});

const calculate = (input: CalculationInput): CalculationOutcome => {
  const fields: Readonly<Record<string, unknown>> = input.analysis.fields.calculation;
  const problems: InputProblem[] = [];
  const terms = readTerms(input, problems);
  const form = fields['form'];
  if (form !== 'product' && form !== 'sum')
    problems.push({ path: ['form'], message: 'calculation.form is missing: product or sum' });
  const options = readSpreadOptions(fields, problems);
  const limit = input.limits[0];
  if (!limit)
    problems.push({ path: [], message: 'acceptance is missing: a tolerance stack-up needs limits' });
  if (form === 'product')
    for (const [index, term] of terms.entries())
      if (term.nominal - term.minus <= 0)
        problems.push({
          path: ['terms', index],
          message: `${term.name} can reach 0, which a product does not allow`,
        });
  const constant = fields['constant'] ?? 1;
  if (typeof constant !== 'number' || !Number.isFinite(constant))
    problems.push({ path: ['constant'], message: 'calculation.constant is not a number' });
  if (problems.length > 0 || !limit || typeof constant !== 'number') return { ok: false, problems };
  const constantUnit = typeof fields['constant_unit'] === 'string' ? fields['constant_unit'] : '1';
  const factor = form === 'product' ? productFactor(terms, constantUnit, limit.unit) : 1;
  const converters = terms.map((term) => unitConverter(term.unit, limit.unit));
  if (factor === undefined)
    problems.push({
      path: ['terms'],
      message: `the product is not in ${limit.unit}, the unit of the limit: its terms are in ${terms.map((term) => `${term.unit} to the power ${term.weight}`).join(', ')}; where the constant has a unit, give constant_unit`,
    });
  if (form === 'sum')
    for (const [index, term] of terms.entries())
      if (!converters[index])
        problems.push({
          path: ['terms', index],
          message: `${term.name} is in ${term.unit}, which cannot be converted to ${limit.unit}`,
        });
  if (problems.length > 0 || factor === undefined) return { ok: false, problems };
  const inUnit = (term: Term, index: number): Term => {
    const convert = converters[index] ?? ((value: number) => value);
    const width = (value: number): number => convert(value) - convert(0);
    return { ...term, nominal: convert(term.nominal), plus: width(term.plus), minus: width(term.minus) };
  };
  const result: Stackup =
    form === 'product'
      ? productStackup(
          terms.map((term) => ({ ...term, exponent: term.weight })),
          constant * factor,
        )
      : linearStackup(terms.map(inUnit).map((term) => ({ ...term, sensitivity: term.weight })));
  const { lower, upper } = result.worstCase;
  // Decimal fractions add up with a rounding error of the size of the terms: it must not turn an equality into a failure.
  const slack =
    1e-12 *
    (form === 'product'
      ? Math.abs(result.nominal)
      : terms.map(inUnit).reduce((sum, term) => sum + Math.abs(term.nominal * term.weight), 0));
  if (![lower, upper, slack].every(Number.isFinite))
    return {
      ok: false,
      problems: [{ path: ['terms'], message: 'the figures give no result that can be computed with' }],
    };
  const spread = {
    nominal: result.nominal,
    worstCase: { low: lower, high: upper },
    exact: true,
    rootSumSquare: result.rootSumSquare,
    contributions: terms.map(({ name }, index) => ({ name, share: result.contributions[index] ?? 0 })),
    exactInputs: terms.filter(({ plus, minus }) => plus === 0 && minus === 0).map(({ name }) => name),
    slack,
    quantities: (form === 'sum' ? terms.map(inUnit) : terms).map((term) => ({
      centre: term.nominal + (term.plus - term.minus) / 2,
      halfWidth: (term.plus + term.minus) / 2,
      distribution: term.distribution ?? options.distribution,
      sigmaLevel: options.sigmaLevel,
    })),
    model:
      form === 'product'
        ? (values: readonly number[]) =>
            terms.reduce(
              (product, { weight }, index) => product * (values[index] ?? Number.NaN) ** weight,
              constant * factor,
            )
        : (values: readonly number[]) =>
            terms.reduce((sum, { weight }, index) => sum + weight * (values[index] ?? Number.NaN), 0),
  };
  return {
    ok: true,
    characteristics: [
      {
        limits: limit,
        ...judgeSpread(spread, limit, options),
        tables: [termTable(terms, form === 'sum' ? 'sum' : 'product', result, limit.unit)],
      },
    ],
  };
};

export const toleranceStackUp: Calculation = {
  name: 'tolerance-stack-up',
  title: 'Tolerance stack-up',
  basis:
    'worst case and root-sum-square (first-order propagation, JCGM 100:2008, 5.1.2); simulation (JCGM 101:2008)',
  explain:
    'The result of a sum or a product of design-output characteristics, with every one of them at the end of its tolerance (worst case) and with their variations added in squares (root-sum-square). The verdict rests on the worst case unless `judge_by` says `root-sum-square` or `simulation`.\n\nA simulation draws every characteristic independently about the middle of its tolerance (`distribution` normal, uniform or triangular; `sigma_level` standard deviations in half of a tolerance, 3 unless given), `trials` times, with the generator xoshiro128** and a `seed`, so that it gives the same figures everywhere. It passes when the upper `confidence` bound (0.95 unless given) of the share outside the limits leaves at least `share_within` inside, and is undecided when there were too few trials to tell. Parts of one mould share their deviation and are not independent.\n\nInputs: `form` (sum or product), `terms` (output, characteristic, and power or sensitivity), `constant` for products (with `constant_unit` where it has one); limits under `acceptance`. Units are converted; the result must be in the unit of the limit.',
  calculate,
};

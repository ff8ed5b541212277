import { unitCode, unitConverter, withUnit } from '../../records/units.ts';
import { linearStackup, productStackup, type Stackup } from '../../statistics/stackup.ts';
import { limitText } from '../methods/conformity.ts';
import { fixed, percent } from '../number-text.ts';
import type { NamedValue } from '../result.ts';
import type { Calculation, CalculationInput, CalculationOutcome, InputProblem } from './calculation.ts';

interface Term {
  readonly name: string;
  readonly nominal: number;
  readonly plus: number;
  readonly minus: number;
  readonly weight: number;
  readonly unit: string;
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
  const list = analysis.fields.calculation['terms'];
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
    const output = graph.recordOf('design-output', String(term['output']));
    const characteristic = output?.fields.characteristics?.find(
      (known) => known.name === term['characteristic'],
    );
    if (!output)
      problems.push({
        path: ['terms', index, 'output'],
        message: `there is no design output ${String(term['output'])}`,
      });
    else if (!characteristic)
      problems.push({
        path: ['terms', index, 'characteristic'],
        message: `${output.id} has no characteristic "${String(term['characteristic'])}"; it has: ${(output.fields.characteristics ?? []).map((known) => known.name).join(', ')}`,
      });
    if (!output || !characteristic) return [];
    const weight = term['power'] ?? term['sensitivity'] ?? 1;
    if (typeof weight !== 'number' || !Number.isFinite(weight))
      problems.push({ path: ['terms', index], message: 'power or sensitivity is not a number' });
    return [
      {
        name: `${output.id} ${characteristic.name}`,
        nominal: characteristic.nominal,
        plus: characteristic.plus ?? 0,
        minus: characteristic.minus ?? 0,
        weight: Number(weight),
        unit: characteristic.unit ?? '1',
      },
    ];
  });
};

const calculate = (input: CalculationInput): CalculationOutcome => {
  const fields = input.analysis.fields.calculation;
  const problems: InputProblem[] = [];
  const terms = readTerms(input, problems);
  const form = fields['form'];
  if (form !== 'product' && form !== 'sum')
    problems.push({ path: ['form'], message: 'calculation.form is missing: product or sum' });
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
  const passes =
    lower >= (limit.lower ?? Number.NEGATIVE_INFINITY) - slack &&
    upper <= (limit.upper ?? Number.POSITIVE_INFINITY) + slack;
  const decimals = 2;
  const value = (
    key: string,
    label: string,
    number: number,
    digits = decimals,
    unit = limit.unit,
  ): NamedValue => ({ key, label, value: number, unit, decimals: digits });
  return {
    ok: true,
    characteristics: [
      {
        limits: limit,
        verdict: passes ? 'pass' : 'fail',
        reason: `worst case ${fixed(lower, decimals)} to ${withUnit(fixed(upper, decimals), limit.unit)}, required ${limitText(limit)}`,
        sampleSize: 1,
        readings: [],
        values: [
          value('nominal', 'nominal', result.nominal),
          value('worst_case_lower', 'worst case, lower', lower),
          value('worst_case_upper', 'worst case, upper', upper),
          value('root_sum_square', 'root-sum-square half width', result.rootSumSquare.halfWidth, 3),
          ...terms.map((term, index) =>
            value(
              `share_${index + 1}`,
              `share of ${term.name}`,
              (result.contributions[index] ?? 0) * 100,
              0,
              '%',
            ),
          ),
        ],
        assumptions: [
          {
            name: 'largest contributor',
            outcome: 'not tested',
            detail: terms
              .map((term, index) => `${term.name} ${percent(result.contributions[index] ?? 0)}`)
              .join(', '),
          },
        ],
      },
    ],
  };
};

export const toleranceStackUp: Calculation = {
  name: 'tolerance-stack-up',
  title: 'Tolerance stack-up',
  basis: 'worst case and root-sum-square (first-order propagation; common practice, no source)',
  explain:
    'The result of a sum or a product of design-output characteristics, with every one of them at the end of its tolerance (worst case) and with their variations added in squares (root-sum-square). The verdict rests on the worst case.\n\nInputs: `form` (sum or product), `terms` (output, characteristic, and power or sensitivity), `constant` for products (with `constant_unit` where it has one); limits under `acceptance`. Units are converted; the result must be in the unit of the limit.',
  calculate,
};

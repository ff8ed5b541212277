import { withUnit } from '../../records/units.ts';
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
}

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
    if (typeof weight !== 'number')
      problems.push({ path: ['terms', index], message: 'power or sensitivity is not a number' });
    return [
      {
        name: `${output.id} ${characteristic.name}`,
        nominal: characteristic.nominal,
        plus: characteristic.plus ?? 0,
        minus: characteristic.minus ?? 0,
        weight: Number(weight),
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
  if (problems.length > 0 || !limit) return { ok: false, problems };
  const constant = typeof fields['constant'] === 'number' ? fields['constant'] : 1;
  const result: Stackup =
    form === 'product'
      ? productStackup(
          terms.map((term) => ({ ...term, exponent: term.weight })),
          constant,
        )
      : linearStackup(terms.map((term) => ({ ...term, sensitivity: term.weight })));
  const { lower, upper } = result.worstCase;
  const passes =
    lower >= (limit.lower ?? Number.NEGATIVE_INFINITY) && upper <= (limit.upper ?? Number.POSITIVE_INFINITY);
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
    'The result of a sum or a product of design-output characteristics, with every one of them at the end of its tolerance (worst case) and with their variations added in squares (root-sum-square). The verdict rests on the worst case.\n\nInputs: `form` (sum or product), `terms` (output, characteristic, and power or sensitivity), `constant` for products; limits under `acceptance`.',
  calculate,
};

import { unitInBase, withUnit } from '../../records/units.ts';
import { formulaRange, propagate } from '../../statistics/error-propagation.ts';
import { evaluateFormula, type Formula } from '../../statistics/formula.ts';
import type { Distribution } from '../../statistics/monte-carlo.ts';
import { printedNumber } from '../../statistics/number-notation.ts';
import { percent } from '../number-text.ts';
import type { Assumption, EvidenceTable } from '../result.ts';
import {
  type Calculation,
  type CalculationInput,
  type CalculationOutcome,
  choiceAt,
  type InputProblem,
} from './calculation.ts';
import { dimensionText, formulaDimension, sameDimension } from './formula-dimension.ts';
import { outputCharacteristic } from './output-characteristic.ts';
import { parseFormula, reservedNames } from './parse-formula.ts';
import { distributions, judgeSpread, readSpreadOptions } from './spread-judgement.ts';

interface Variable {
  /** The name in the formula, and what stands behind it. */
  readonly symbol: string;
  readonly name: string;
  readonly nominal: number;
  readonly plus: number;
  readonly minus: number;
  readonly unit: string;
  readonly distribution?: Distribution;
}

const symbolPattern = /^[A-Za-z][A-Za-z0-9_]{0,39}$/;

const readVariables = ({ analysis, graph }: CalculationInput, problems: InputProblem[]): Variable[] => {
  const list: unknown = analysis.fields.calculation.variables;
  if (!Array.isArray(list) || list.length === 0) {
    problems.push({
      path: ['variables'],
      message:
        'calculation.variables is missing: a list of name with output and characteristic, or with value and unit',
    });
    return [];
  }
  const seen = new Set<string>();
  return list.flatMap((each: unknown, index): Variable[] => {
    const entry = (each ?? {}) as Readonly<Record<string, unknown>>;
    const path = ['variables', index];
    const symbol = String(entry['name'] ?? '');
    const refuse = (message: string): Variable[] => {
      problems.push({ path, message });
      return [];
    };
    if (!symbolPattern.test(symbol))
      return refuse(`the name "${symbol}" of variable ${index + 1} is not letters, digits and underscores`);
    if (reservedNames.includes(symbol)) return refuse(`"${symbol}" is a constant or function of formulas`);
    if (seen.has(symbol)) return refuse(`the variable "${symbol}" is there twice`);
    seen.add(symbol);
    const before = problems.length;
    const distribution =
      entry['distribution'] === undefined
        ? {}
        : { distribution: choiceAt(entry, 'distribution', [...distributions], problems) };
    if (problems.length > before) return [];
    if (entry['output'] !== undefined) {
      const found = outputCharacteristic(graph, entry, path, problems);
      return found ? [{ symbol, ...found, ...distribution }] : [];
    }
    const number = (field: string, fallback?: number): number => {
      const value = entry[field] ?? fallback;
      if (typeof value === 'number' && Number.isFinite(value)) return value;
      problems.push({
        path: [...path, field],
        message: `${field} of the variable "${symbol}" is ${value === undefined ? 'missing' : 'not a number'}`,
      });
      return Number.NaN;
    };
    return [
      {
        symbol,
        name: symbol,
        nominal: number('value'),
        plus: number('plus', 0),
        minus: number('minus', 0),
        unit: typeof entry['unit'] === 'string' ? entry['unit'] : '1',
        ...distribution,
      },
    ];
  });
};

/** Places of the variables that occur in a formula. */
const placesIn = (formula: Formula): readonly number[] => {
  switch (formula.kind) {
    case 'number':
      return [];
    case 'variable':
      return [formula.place];
    case 'negative':
    case 'function':
      return placesIn(formula.of);
    case 'pair':
      return [...placesIn(formula.left), ...placesIn(formula.right)];
    default:
      return formula satisfies never;
  }
};

const calculate = (input: CalculationInput): CalculationOutcome => {
  const fields: Readonly<Record<string, unknown>> = input.analysis.fields.calculation;
  const problems: InputProblem[] = [];
  const variables = readVariables(input, problems);
  const options = readSpreadOptions(fields, problems);
  const text = fields['formula'];
  if (typeof text !== 'string')
    problems.push({
      path: ['formula'],
      message: 'calculation.formula is missing: a text such as "pi/4 * d^2"',
    });
  const limit = input.limits[0];
  if (!limit) problems.push({ path: [], message: 'acceptance is missing: a formula needs limits' });
  const symbols = variables.map((variable) => variable.symbol);
  const parsed = typeof text === 'string' ? parseFormula(text, symbols) : undefined;
  // With a variable that could not be read, the formula would only report it a second time.
  if (parsed && !parsed.ok && problems.length === 0)
    problems.push({ path: ['formula'], message: parsed.reason });
  for (const [index, { symbol, plus, minus }] of variables.entries())
    if (plus < 0 || minus < 0)
      problems.push({
        path: ['variables', index],
        message: `plus and minus of the variable "${symbol}" must not be negative`,
      });
  if (problems.length > 0 || !limit || !parsed?.ok) return { ok: false, problems };
  const { formula } = parsed;
  const used = new Set(placesIn(formula));
  for (const [index, symbol] of symbols.entries())
    if (!used.has(index))
      problems.push({
        path: ['variables', index],
        message: `the variable "${symbol}" does not occur in the formula`,
      });
  const units = variables.map(({ unit }) => unitInBase(unit));
  for (const [index, { symbol, unit }] of variables.entries())
    if (!units[index])
      problems.push({
        path: ['variables', index],
        message: `the unit ${unit} of the variable "${symbol}" cannot be calculated with; a unit with an offset such as °C must be given in K`,
      });
  const target = unitInBase(limit.unit);
  if (!target)
    problems.push({ path: [], message: `the unit ${limit.unit} of the limit cannot be calculated with` });
  if (problems.length > 0 || !target) return { ok: false, problems };
  const dimension = formulaDimension(
    formula,
    units.map((unit) => unit?.dimension ?? {}),
  );
  if (!dimension.ok) problems.push({ path: ['formula'], message: dimension.reason });
  else if (!sameDimension(dimension.dimension, target.dimension))
    problems.push({
      path: ['formula'],
      message: `the formula gives ${dimensionText(dimension.dimension)}, the limit is in ${limit.unit}, which is ${dimensionText(target.dimension)}`,
    });
  if (problems.length > 0) return { ok: false, problems };

  const factors = units.map((unit) => unit?.factor ?? 1);
  const inBase = variables.map((variable, index) => {
    const factor = factors[index] ?? 1;
    return {
      nominal: variable.nominal * factor,
      low: (variable.nominal - variable.minus) * factor,
      high: (variable.nominal + variable.plus) * factor,
    };
  });
  for (const [index, { low, high }] of inBase.entries())
    if (!Number.isFinite(low) || !Number.isFinite(high))
      problems.push({
        path: ['variables', index],
        message: `the variable "${symbols[index]}" is too large to calculate with`,
      });
  if (problems.length > 0) return { ok: false, problems };
  const middles = inBase.map(({ low, high }) => low / 2 + high / 2);
  const halves = inBase.map(({ low, high }) => high / 2 - low / 2);
  const range = formulaRange(formula, inBase);
  const first = propagate(formula, middles, halves);
  const nominal = evaluateFormula(
    formula,
    inBase.map((each) => each.nominal),
  );
  // At a kink the formula has a value and no slope: only first-order propagation cannot be used there.
  const propagated = first.ok ? first.value : undefined;
  const isKinked = !first.ok && first.problem === 'no-slope';
  const fault = !range.ok
    ? range.reason
    : !first.ok && !isKinked
      ? first.reason
      : Number.isFinite(nominal)
        ? undefined
        : 'it has no value at the nominal inputs';
  if (!range.ok || fault !== undefined)
    return {
      ok: false,
      problems: [
        { path: ['formula'], message: `the formula has no result over these tolerances: ${fault ?? ''}` },
      ],
    };
  const scale = target.factor;
  const slopes = propagated?.slopes ?? [];
  const contributions = propagated?.contributions ?? [];
  const size = slopes.reduce(
    (sum, slope, index) => sum + Math.abs(slope * (middles[index] ?? 0)),
    Math.max(Math.abs(range.value.low), Math.abs(range.value.high)),
  );
  const spread = {
    nominal: nominal / scale,
    worstCase: { low: range.value.low / scale, high: range.value.high / scale },
    exact: range.value.exact,
    ...(propagated
      ? {
          rootSumSquare: {
            centre: propagated.value / scale,
            halfWidth: propagated.spread / Math.abs(scale),
          },
        }
      : {}),
    contributions: propagated
      ? variables.map(({ name }, index) => ({ name, share: contributions[index] ?? 0 }))
      : [],
    exactInputs: variables.filter(({ plus, minus }) => plus === 0 && minus === 0).map(({ name }) => name),
    slack: 1e-12 * (size / Math.abs(scale)),
    quantities: variables.map((variable, index) => ({
      centre: middles[index] ?? 0,
      halfWidth: halves[index] ?? 0,
      distribution: variable.distribution ?? options.distribution,
      sigmaLevel: options.sigmaLevel,
    })),
    model: (values: readonly number[]) => evaluateFormula(formula, values) / scale,
  };
  const judged = judgeSpread(spread, limit, options);
  const straight = linearity(spread);
  const isBent = options.judgeBy === 'root-sum-square' && straight.outcome === 'not met';
  return {
    ok: true,
    characteristics: [
      {
        limits: limit,
        ...judged,
        ...(isBent
          ? {
              verdict: 'undecided' as const,
              reason: `the formula bends too much over the tolerances for root-sum-square: ${straight.detail}`,
              remedy: 'Judge by the worst case or by a simulation, with a new approval of the analysis.',
            }
          : {}),
        assumptions: [
          ...judged.assumptions,
          {
            name: 'units',
            outcome: 'met',
            detail: `the formula gives ${dimensionText(target.dimension)}, as the limit does`,
          },
          straight,
        ],
        tables: [
          workingTable(
            variables,
            propagated && {
              slopes: slopes.map((slope, index) => (slope * (factors[index] ?? 1)) / scale),
              contributions,
            },
            limit.unit,
          ),
        ],
      },
    ],
  };
};

/** Share of the half width by which the middle may lie off before first-order propagation has no ground (common practice, no source). */
const mostBend = 0.1;

/** How well first-order propagation can do: it takes the formula as straight over the tolerances. */
const linearity = (spread: {
  readonly worstCase: { readonly low: number; readonly high: number };
  readonly rootSumSquare?: { readonly centre: number };
}): Assumption => {
  if (!spread.rootSumSquare)
    return {
      name: 'nearly straight over the tolerances',
      outcome: 'not met',
      detail: 'the formula has a kink in the middle of the tolerances',
    };
  const { low, high } = spread.worstCase;
  const middle = (low + high) / 2;
  const width = (high - low) / 2;
  const bend = width === 0 ? 0 : Math.abs(middle - spread.rootSumSquare.centre) / width;
  return {
    name: 'nearly straight over the tolerances',
    outcome: bend > mostBend ? 'not met' : 'met',
    detail: `the middle of the worst case lies ${percent(bend, 1)} of its half width away from the value at the middle of the inputs; root-sum-square and shares are of first order`,
  };
};

const workingTable = (
  variables: readonly Variable[],
  firstOrder: { readonly slopes: readonly number[]; readonly contributions: readonly number[] } | undefined,
  unit: string,
): EvidenceTable => ({
  title: 'Variables of the formula',
  columns: ['variable', 'nominal', 'plus', 'minus', `change of the result [${unit}] per unit`, 'share'],
  rows: variables.map((variable, index) => [
    variable.name === variable.symbol ? variable.symbol : `${variable.symbol}: ${variable.name}`,
    withUnit(printedNumber(String(variable.nominal)), variable.unit),
    printedNumber(String(variable.plus)),
    printedNumber(String(variable.minus)),
    firstOrder ? printedNumber(String(Number((firstOrder.slopes[index] ?? 0).toPrecision(8)))) : 'kink',
    firstOrder ? percent(firstOrder.contributions[index] ?? 0, 1) : '–',
  ]),
});

export const formula: Calculation = {
  name: 'formula',
  title: 'Formula over characteristics',
  basis:
    'worst case by interval arithmetic (Moore 1966), first-order propagation (JCGM 100:2008, 5.1.2), simulation (JCGM 101:2008)',
  explain: `The result of a formula over characteristics of design outputs, with their tolerances. Shown are the nominal result, the worst case, the root-sum-square half width with the share of each variable (slope times half width, squared), and, where asked for, a simulation.

Use it where a result is more than a sum or a product. Inputs: \`formula\`, such as \`pi/4 * d^2 * p\`; \`variables\`, each with a \`name\` and either \`output\` and \`characteristic\` or \`value\`, \`unit\`, \`plus\` and \`minus\`; limits under \`acceptance\`.

A formula has numbers, variables, + - * / ^, brackets, the constants pi and e, and the functions abs, acos, asin, atan, cos, exp, ln, log10, max, min, sin, sqrt, tan, with angles in radians. Nothing else can be written. Units are followed through the formula: a sum of millimetres and newtons is refused, and the result must be in the unit of the limit.

The worst case is exact where the result rises or falls with every variable over its whole tolerance; elsewhere it is bounded safely, and where these bounds do not decide, the verdict is undecided. Slopes are exact derivatives, not differences. Where the formula has a kink in the middle of the tolerances (abs, max, min) it has no slope there: worst case and simulation still hold, root-sum-square and shares are not given. Inputs without a tolerance are counted as exact, and named.

\`judge_by\` says what the verdict rests on: \`worst-case\` (unless given), \`root-sum-square\`, or \`simulation\` with \`share_within\`, the share of results that must lie within the limits. A simulation draws each variable independently about the middle of its tolerance (\`distribution\` normal, uniform or triangular; \`sigma_level\` standard deviations in half of a tolerance, 3 unless given) with the generator xoshiro128** and a \`seed\`, so that it gives the same figures everywhere. Its verdict keeps a margin for the number of \`trials\`.

Caution: root-sum-square and simulation say what happens if the parts come out as assumed. Parts of one mould share their deviation and are not independent; data of the process, not the drawing, show the distribution.`,
  calculate,
};

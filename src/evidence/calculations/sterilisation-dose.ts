import { printedNumber } from '../../statistics/number-notation.ts';
import {
  bioburdenLimit,
  decimalReductionTimeBySpearmanKarber,
  decimalReductionTimeFromNegatives,
  demonstratedLogReduction,
  type ExposureStep,
  exposureForAssurance,
  sterilityAssuranceLevel,
} from '../../statistics/sterilisation.ts';
import { confidenceText, fixed } from '../number-text.ts';
import type { Assumption, CharacteristicEvidence, EvidenceTable } from '../result.ts';
import {
  type Calculation,
  type CalculationInput,
  type CalculationOutcome,
  choiceAt,
  type InputProblem,
  namedValue,
  numberAt,
  optionalNumberAt,
  requireThat,
} from './calculation.ts';

/** A power of ten as a report prints it. */
const tenTo = (value: number): string => printedNumber(value.toExponential(1));

/** What both approaches need: how many organisms there are on the product, and how sure it has to be sterile. */
interface Shared {
  readonly bioburden: number;
  readonly population: number;
  readonly exposure: number;
  readonly level: number;
}

const count = (
  fields: Readonly<Record<string, unknown>>,
  name: string,
  minimum: number,
  problems: InputProblem[],
): number => {
  const value = numberAt(fields, name, problems);
  requireThat(
    Number.isSafeInteger(value) && value >= minimum,
    name,
    `a whole number of at least ${minimum}`,
    problems,
  );
  return value;
};

const positive = (
  fields: Readonly<Record<string, unknown>>,
  name: string,
  problems: InputProblem[],
): number => {
  const value = numberAt(fields, name, problems);
  requireThat(value > 0, name, 'above 0', problems);
  return value;
};

const equalFactors: Assumption = {
  name: 'the number falls by the same factor in equal times',
  outcome: 'not tested',
  detail: 'a shoulder or a tail of the survivor curve would show in counts at several exposures',
};

/** Whether an exposure is not absurdly long beside the time that it is measured in; notes a problem where it is. */
const isPlausible = (times: number, problems: InputProblem[]): boolean => {
  if (times <= 200) return true;
  problems.push({
    path: ['exposure'],
    message: 'calculation.exposure is more than 200 times the half cycle or the decimal reduction time',
  });
  return false;
};

const resistance: Assumption = {
  name: 'indicators resist at least as well as the bioburden',
  outcome: 'not tested',
  detail:
    'shown by a fraction cycle with product and indicators side by side, at the places that are hardest to sterilise',
};

const calculate = ({ analysis, limits }: CalculationInput): CalculationOutcome => {
  const fields: Readonly<Record<string, unknown>> = analysis.fields.calculation;
  const problems: InputProblem[] = [];
  const approach = choiceAt(fields, 'approach', ['half-cycle', 'decimal-reduction'], problems, true);
  const stated = optionalNumberAt(fields, 'sterility_assurance_level', problems) ?? 1e-6;
  requireThat(stated > 0 && stated < 1, 'sterility_assurance_level', 'between 0 and 1', problems);
  const limit = limits[0] ?? {
    characteristic: 'sterility assurance level',
    unit: '1',
    upper: stated,
    upperText: String(stated),
  };
  if (limit.unit !== '1')
    problems.push({
      path: [],
      message: `the limit is in ${limit.unit}; a sterility assurance level has no unit`,
    });
  if (limit.lower !== undefined || limit.upper === undefined)
    problems.push({
      path: [],
      message: 'the limit must have an upper end only: a sterility assurance level',
    });
  else requireThat(limit.upper > 0, 'acceptance', 'above 0', problems);
  const shared: Shared = {
    population: positive(fields, 'population', problems),
    bioburden: positive(fields, 'bioburden', problems),
    exposure: positive(fields, 'exposure', problems),
    level: Math.min(stated, limit.upper ?? stated),
  };
  const judged =
    approach === 'half-cycle'
      ? halfCycle(fields, shared, problems)
      : fromDecimalReduction(fields, shared, problems);
  if (problems.length > 0 || !judged) return { ok: false, problems };
  return { ok: true, characteristics: [{ limits: limit, sampleSize: 1, readings: [], ...judged }] };
};

type Judged = Pick<
  CharacteristicEvidence,
  'verdict' | 'reason' | 'remedy' | 'values' | 'assumptions' | 'tables'
>;

const halfCycle = (
  fields: Readonly<Record<string, unknown>>,
  { bioburden, population, exposure, level }: Shared,
  problems: InputProblem[],
): Judged | undefined => {
  const half = positive(fields, 'half_cycle_exposure', problems);
  const indicators = count(fields, 'indicators', 1, problems);
  const grown = count(fields, 'indicators_with_growth', 0, problems);
  const runs = fields['half_cycles'] === undefined ? undefined : count(fields, 'half_cycles', 1, problems);
  const confidence = optionalNumberAt(fields, 'confidence', problems) ?? 0.95;
  requireThat(confidence > 0 && confidence < 1, 'confidence', 'between 0 and 1', problems);
  requireThat(!(grown > indicators), 'indicators_with_growth', `at most ${indicators}`, problems);
  if (problems.length > 0) return undefined;
  const ratio = exposure / half;
  if (!isPlausible(ratio, problems)) return undefined;
  const shown = demonstratedLogReduction({ population, indicators, confidence });
  const full = shown * ratio;
  const reached = sterilityAssuranceLevel({ population: bioburden, logReduction: full });
  const allowedBioburden = bioburdenLimit({ logReduction: full, level });
  const enoughSpores = population >= 1e6;
  const assumptions: readonly Assumption[] = [
    {
      name: 'a million spores on each indicator',
      outcome: enoughSpores ? 'met' : 'not met',
      detail: `${tenTo(population)} on each indicator, 10⁶ needed for the overkill approach (ISO 11135, annex B, from memory)`,
    },
    {
      name: 'three half cycles',
      outcome: runs === undefined ? 'not tested' : runs >= 3 && grown === 0 ? 'met' : 'not met',
      detail:
        runs === undefined
          ? 'half_cycles does not state how many were run, 3 in a row without growth needed (ISO 11135, annex B, from memory)'
          : grown > 0
            ? `${runs} half cycle${runs === 1 ? '' : 's'} with growth, 3 in a row without growth needed (ISO 11135, annex B, from memory)`
            : `${runs} half cycle${runs === 1 ? '' : 's'} without growth, 3 in a row needed (ISO 11135, annex B, from memory)`,
    },
    resistance,
    equalFactors,
  ];
  const values = [
    namedValue(
      'half_cycle_log_reduction',
      'powers of ten, half cycle, from the population',
      Math.log10(population),
      '1',
      2,
    ),
    namedValue(
      'demonstrated_log_reduction',
      `powers of ten, half cycle, ${confidenceText(confidence)} bound`,
      shown,
      '1',
      2,
    ),
    namedValue('full_cycle_log_reduction', 'powers of ten, full cycle, bound', full, '1', 2),
    namedValue('exposure_ratio', 'full cycle over half cycle', ratio, '1', 2),
    namedValue('sterility_assurance_level', 'sterility assurance level of the product', reached, '1', 12),
    namedValue('bioburden_limit', 'largest bioburden for the level', allowedBioburden, '{CFU}', 0),
  ];
  const base = { values, assumptions };
  if (grown > 0)
    return {
      // The bounds hold for no growth only, so none of them is printed.
      values: values.filter(({ key }) => key === 'exposure_ratio'),
      assumptions,
      verdict: 'fail',
      reason: `${grown} of ${indicators} indicators grew after the half cycle; none may`,
      remedy: 'Lengthen the half cycle, or raise its lethality, and run it again.',
    };
  if (ratio < 2 * (1 - 1e-12))
    return {
      ...base,
      verdict: 'fail',
      reason: `the exposure is ${fixed(ratio, 2)} times the half cycle, 2 needed`,
      remedy: `Set the exposure to at least twice the half cycle, ${fixed(2 * half, 1)}.`,
    };
  // Resistance and equal factors are shown elsewhere; what the calculation itself asks for must be met.
  const broken = assumptions.slice(0, 2).filter((each) => each.outcome !== 'met');
  const result = `no growth on ${indicators} indicators shows ${fixed(shown, 2)} powers of ten in the half cycle with ${confidenceText(confidence)} confidence and ${fixed(full, 2)} in the full one: from ${printedNumber(String(bioburden))} organisms to ${tenTo(reached)}, required ${tenTo(level)}`;
  return {
    ...base,
    verdict: broken.length > 0 ? 'undecided' : reached <= level * (1 + 1e-9) ? 'pass' : 'fail',
    reason: broken.length > 0 ? `${result}; ${broken.map((each) => each.detail).join('; ')}` : result,
    ...(broken.length > 0
      ? {
          remedy:
            'Use indicators of at least a million spores in three half cycles and state their number under half_cycles, or judge by decimal reduction.',
        }
      : {}),
  };
};

/** D as stated, or from the exposure steps of a fraction-negative study. */
const readDecimalReduction = (
  fields: Readonly<Record<string, unknown>>,
  population: number,
  problems: InputProblem[],
): { readonly time: number; readonly how: string; readonly steps: readonly ExposureStep[] } | undefined => {
  const list = fields['steps'];
  if (list === undefined) {
    const time = positive(fields, 'decimal_reduction_time', problems);
    return { time, how: 'as stated', steps: [] };
  }
  if (fields['decimal_reduction_time'] !== undefined)
    problems.push({
      path: ['decimal_reduction_time'],
      message: 'calculation gives both decimal_reduction_time and steps; one of them is enough',
    });
  const steps = (Array.isArray(list) ? list : []).map((each: unknown): ExposureStep => {
    const step = (each ?? {}) as Readonly<Record<string, unknown>>;
    return {
      exposure: Number(step['exposure']),
      replicates: Number(step['replicates']),
      negative: Number(step['negative']),
    };
  });
  if (problems.length > 0) return undefined;
  try {
    const [only] = steps;
    if (steps.length === 1 && only)
      return {
        time: decimalReductionTimeFromNegatives({ ...only, initial: population }),
        how: 'from one fraction-negative exposure (Stumbo, Murphy and Cochran)',
        steps,
      };
    return {
      time: decimalReductionTimeBySpearmanKarber(steps, { initial: population }),
      how: 'by Holcomb, Spearman and Karber',
      steps,
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    problems.push({
      path: ['steps'],
      message: `calculation.steps gives no decimal reduction: ${error.message}`,
    });
    return undefined;
  }
};

const fromDecimalReduction = (
  fields: Readonly<Record<string, unknown>>,
  { bioburden, population, exposure, level }: Shared,
  problems: InputProblem[],
): Judged | undefined => {
  const found = readDecimalReduction(fields, population, problems);
  if (problems.length > 0 || !found) return undefined;
  const logReduction = exposure / found.time;
  if (!isPlausible(logReduction, problems)) return undefined;
  const reached = sterilityAssuranceLevel({ population: bioburden, logReduction });
  const needed = exposureForAssurance({ population: bioburden, decimalReduction: found.time, level });
  const passes = reached <= level * (1 + 1e-9);
  return {
    verdict: passes ? 'pass' : 'fail',
    reason: `with D ${fixed(found.time, 3)} ${found.how}, an exposure of ${exposure} is ${fixed(logReduction, 2)} powers of ten: from ${printedNumber(String(bioburden))} organisms to ${tenTo(reached)}, required ${tenTo(level)}`,
    ...(passes ? {} : { remedy: `Expose for at least ${fixed(needed, 2)}.` }),
    values: [
      namedValue('decimal_reduction_time', 'decimal reduction time', found.time, '1', 3),
      namedValue('log_reduction', 'powers of ten of the exposure', logReduction, '1', 2),
      namedValue('sterility_assurance_level', 'sterility assurance level of the product', reached, '1', 12),
      namedValue('exposure_needed', 'exposure needed for the level', needed, '1', 2),
      namedValue(
        'bioburden_limit',
        'largest bioburden for the level',
        bioburdenLimit({ logReduction, level }),
        '{CFU}',
        0,
      ),
    ],
    assumptions: [resistance, equalFactors],
    ...(found.steps.length > 0 ? { tables: [stepTable(found.steps)] } : {}),
  };
};

const stepTable = (steps: readonly ExposureStep[]): EvidenceTable => ({
  title: 'Replicates without growth',
  columns: ['exposure', 'replicates', 'without growth'],
  rows: steps.map(({ exposure, replicates, negative }) => [exposure, replicates, negative].map(String)),
});

export const sterilisationDose: Calculation = {
  name: 'sterilisation-dose',
  title: 'Sterilisation dose',
  basis:
    'death by a power of ten per decimal reduction time (ISO 11138-1); half cycle of the overkill approach (ISO 11135, annex B), its log reduction bounded by the Poisson probability of no growth',
  explain: `Whether an exposure brings the bioburden of the product down to the sterility assurance level (1e-6 unless \`sterility_assurance_level\` or the acceptance says otherwise).

\`approach: half-cycle\` is the overkill approach: no indicator may grow after half of the exposure. The customary claim is log10 of the population for the half cycle and twice as much for the full one. That says what is expected, not what is shown: no growth on n indicators has the probability exp(-n N0 10^-SLR), so with \`confidence\` (0.95 unless given) at least log10 N0 - log10(-ln(1 - C) / n) powers of ten are shown. The verdict rests on this bound; both figures are printed. Inputs: \`population\` of each indicator, \`indicators\` in all half cycles together, \`indicators_with_growth\`, \`half_cycles\`, \`half_cycle_exposure\`, \`exposure\`, \`bioburden\` (the largest expected on a unit).

\`approach: decimal-reduction\` uses the time D in which the number falls to a tenth: \`decimal_reduction_time\`, or \`steps\` of a fraction-negative study (exposure, replicates, negative): one step by Stumbo, Murphy and Cochran, several by Holcomb, Spearman and Karber, from all grown to none grown. Inputs besides: \`population\`, \`exposure\`, \`bioburden\`. All times in the same unit, equivalent times where the process is not at constant lethality.

The verdict is undecided where the indicators carry fewer than a million spores, or fewer than three half cycles are stated.

Caution: this is arithmetic, not a validation. The indicators must resist at least as well as the bioburden, at the places hardest to sterilise, and the load, packaging and preconditioning must be those of routine.`,
  calculate,
};

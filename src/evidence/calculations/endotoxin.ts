import { unitConverter, withUnit } from '../../records/units.ts';
import {
  doseEndotoxinLimit,
  extractEndotoxinLimit,
  maximumValidDilution,
} from '../../statistics/endotoxin.ts';
import { fixed } from '../number-text.ts';
import type { Assumption } from '../result.ts';
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

/** EU allowed on a device (USP <161>). */
const perDevice = { general: 20, 'cerebrospinal fluid': 2.15 } as const;

/** Spike recovery in per cent within which inhibition and enhancement are excluded (USP <85>, from memory). */
const recovery = { lower: 50, upper: 200 };

const calculate = ({ analysis, limits }: CalculationInput): CalculationOutcome => {
  const fields: Readonly<Record<string, unknown>> = analysis.fields.calculation;
  const problems: InputProblem[] = [];
  const contact = choiceAt(fields, 'contact', ['general', 'cerebrospinal fluid', 'dose'], problems, true);
  const concentration = numberAt(fields, 'concentration', problems);
  const below = fields['below_detection'] === true;
  const dilution = optionalNumberAt(fields, 'dilution', problems);
  const sensitivity = optionalNumberAt(fields, 'sensitivity', problems);
  const spike = optionalNumberAt(fields, 'spike_recovery', problems);
  requireThat(concentration >= 0, 'concentration', 'a number that is not negative', problems);
  requireThat(!below || concentration > 0, 'concentration', 'above 0, the limit of detection', problems);
  requireThat(dilution === undefined || dilution >= 1, 'dilution', 'at least 1', problems);
  requireThat(sensitivity === undefined || sensitivity > 0, 'sensitivity', 'above 0', problems);
  requireThat(spike === undefined || spike >= 0, 'spike_recovery', 'a number that is not negative', problems);
  const devices = contact === 'dose' ? 1 : numberAt(fields, 'devices', problems);
  const volume = contact === 'dose' ? 1 : numberAt(fields, 'volume', problems);
  requireThat(
    Number.isSafeInteger(devices) && devices >= 1,
    'devices',
    'a whole number of at least 1',
    problems,
  );
  requireThat(volume > 0, 'volume', 'above 0', problems);
  const threshold = contact === 'dose' ? numberAt(fields, 'threshold', problems) : 1;
  const dose = contact === 'dose' ? numberAt(fields, 'dose', problems) : 1;
  requireThat(threshold > 0, 'threshold', 'above 0', problems);
  requireThat(dose > 0, 'dose', 'above 0', problems);
  if (problems.length > 0) return { ok: false, problems };

  // What is judged: EU on each device, or EU/mL of what is given by dose.
  const unit = contact === 'dose' ? 'EU/mL' : 'EU/device';
  const allowed = contact === 'dose' ? doseEndotoxinLimit({ threshold, dose }) : perDevice[contact];
  const found = contact === 'dose' ? concentration : (concentration * volume) / devices;
  const extractLimit =
    contact === 'dose' ? allowed : extractEndotoxinLimit({ perDevice: allowed, devices, volume });
  const limit = limits[0] ?? { characteristic: 'bacterial endotoxin', unit, upper: allowed };
  const convert = unitConverter(limit.unit, unit);
  if (!convert) problems.push({ path: [], message: `the limit is in ${limit.unit}; it must be in ${unit}` });
  if (limit.lower !== undefined || limit.upper === undefined)
    problems.push({ path: [], message: 'the limit must have an upper end only' });
  if (problems.length > 0 || !convert || limit.upper === undefined) return { ok: false, problems };
  const accepted = Math.min(convert(limit.upper), allowed);
  const within = found <= accepted * (1 + 1e-12);
  const dilutable =
    sensitivity === undefined ? undefined : maximumValidDilution({ limit: extractLimit, sensitivity });
  const assumptions: readonly Assumption[] = [
    {
      name: 'dilution within the maximum valid one',
      outcome:
        dilutable === undefined || dilution === undefined
          ? 'not tested'
          : dilution <= dilutable * (1 + 1e-12)
            ? 'met'
            : 'not met',
      detail:
        dilutable === undefined
          ? 'the sensitivity of the reagent is not given'
          : `diluted ${dilution ?? 'an unknown number of'} times, at most ${fixed(dilutable, 1)} times allowed at a sensitivity of ${sensitivity} EU/mL`,
    },
    {
      name: 'no inhibition or enhancement',
      outcome:
        spike === undefined
          ? 'not tested'
          : spike >= recovery.lower && spike <= recovery.upper
            ? 'met'
            : 'not met',
      detail:
        spike === undefined
          ? 'no spike recovery is given'
          : `${spike} % of the spike recovered, ${recovery.lower} to ${recovery.upper} % allowed`,
    },
  ];
  const broken = assumptions.filter((each) => each.outcome === 'not met');
  const sign = below ? 'less than ' : '';
  const result = `${sign}${withUnit(fixed(found, 3), unit)}, allowed ${withUnit(Number(accepted.toPrecision(6)), unit)}`;
  const undetected = below && !within;
  return {
    ok: true,
    characteristics: [
      {
        limits: limit,
        verdict: broken.length > 0 || undetected ? 'undecided' : within ? 'pass' : 'fail',
        reason:
          broken.length > 0
            ? `${result}; ${broken.map((each) => each.detail).join('; ')}`
            : undetected
              ? `${result}: the test cannot see the limit`
              : result,
        ...(broken.length > 0 || undetected
          ? { remedy: 'Repeat the test with less dilution, a smaller rinse or a more sensitive reagent.' }
          : {}),
        sampleSize: devices,
        readings: [],
        values: [
          namedValue('endotoxin', below ? 'endotoxin, less than' : 'endotoxin', found, unit, 3),
          namedValue('limit', 'limit', allowed, unit, 3),
          namedValue('extract_limit', 'limit in the extract', extractLimit, 'EU/mL', 3),
          ...(dilutable === undefined
            ? []
            : [namedValue('maximum_valid_dilution', 'maximum valid dilution', dilutable, '1', 1)]),
        ],
        assumptions,
      },
    ],
  };
};

export const endotoxin: Calculation = {
  name: 'endotoxin',
  title: 'Bacterial endotoxin',
  basis:
    'USP <161>: 20 EU/device, 2.15 EU/device in contact with cerebrospinal fluid, extract limit K N / V; USP <85>: K / M, maximum valid dilution',
  explain: `Bacterial endotoxin in the extract of a device, or in what is given by dose, against its limit.

\`contact: general\` allows 20 EU on each device, \`cerebrospinal fluid\` 2.15 EU (USP <161>, from a public quotation; FDA's questions and answers of 2012 say the same). The extract of \`devices\` pooled devices in \`volume\` mL altogether may then hold K N / V; with 10 devices in 40 mL each that is 0.5 EU/mL. Other contacts can have lower limits: give them as the acceptance, and the stricter one counts.

\`contact: dose\` is for what is given by dose: the limit is K / M, with the \`threshold\` K in EU/kg for an hour (5, or 0.2 into the spine; from memory) and the largest \`dose\` M in mL/kg for an hour (USP <85>).

Inputs: \`concentration\` in the undiluted extract in EU/mL (\`below_detection: true\` where it is the limit of detection), \`devices\`, \`volume\` in mL; \`dilution\`, \`sensitivity\` (EU/mL) and \`spike_recovery\` (%).

The verdict is undecided where the extract was diluted beyond the maximum valid dilution, the spike was not recovered between 50 and 200 % (USP <85>, from memory), or less than the limit of detection was found and that lies above the limit.

Caution: one pool speaks for its lot, not for all lots; endotoxin is not the only pyrogen.`,
  calculate,
};

import { unitConverter, withUnit } from '../../records/units.ts';
import { fixed, percent } from '../number-text.ts';
import type { Assumption } from '../result.ts';
import {
  type Calculation,
  type CalculationInput,
  type CalculationOutcome,
  choiceAt,
  type InputProblem,
  namedValue,
  optionalNumberAt,
  requireThat,
} from './calculation.ts';
import {
  adultMass,
  contactDurations,
  limitForMass,
  limitsForContact,
  type ResidueLimit,
  residuePeriods,
  residueSubstances,
} from './ethylene-oxide-limits.ts';

/** A measured residue in the unit of its limit. */
interface Measured {
  readonly limit: ResidueLimit;
  readonly allowed: number;
  readonly amount: number;
}

const readMeasured = (
  fields: Readonly<Record<string, unknown>>,
  limits: readonly ResidueLimit[],
  { devices, mass }: { readonly devices: number; readonly mass: number },
  problems: InputProblem[],
): Measured[] => {
  const list = fields['measured'];
  if (!Array.isArray(list) || list.length === 0) {
    problems.push({
      path: ['measured'],
      message: 'calculation.measured is missing: a list of substance, period, amount and unit',
    });
    return [];
  }
  const seen = new Set<string>();
  return list.flatMap((each: unknown, index): Measured[] => {
    const entry = (each ?? {}) as Readonly<Record<string, unknown>>;
    const path = ['measured', index];
    const refuse = (message: string): Measured[] => {
      problems.push({ path, message });
      return [];
    };
    const substance = residueSubstances.find((known) => known === entry['substance']);
    const period = residuePeriods.find((known) => known === entry['period']);
    if (!substance)
      return refuse(
        `the substance of residue ${index + 1} is "${String(entry['substance'])}"; it must be one of ${residueSubstances.join(', ')}`,
      );
    if (!period)
      return refuse(
        `the period of residue ${index + 1} is "${String(entry['period'])}"; it must be one of ${residuePeriods.join(', ')}`,
      );
    const what = `${substance}, ${period}`;
    if (seen.has(what)) return refuse(`the residue ${what} is there twice`);
    seen.add(what);
    const limit = limits.find((known) => known.substance === substance && known.period === period);
    if (!limit) return refuse(`the residue ${what} has no limit for this duration of contact`);
    const amount = entry['amount'];
    if (typeof amount !== 'number' || !Number.isFinite(amount) || amount < 0)
      return refuse(`the amount of ${what} is ${String(amount)}; it must be a number that is not negative`);
    const unit = String(entry['unit'] ?? '');
    const convert = unitConverter(unit, limit.unit);
    if (!convert)
      return refuse(
        `the amount of ${what} is in "${unit}", which cannot be converted to ${limit.unit}; a content in ppm must be multiplied by the mass of the device first`,
      );
    // Doses add up over devices that are used together; what lies on a square centimetre does not.
    const together = period === 'surface' ? 1 : devices;
    return [{ limit, allowed: limitForMass(limit, mass), amount: convert(amount) * together }];
  });
};

const calculate = ({ analysis, limits }: CalculationInput): CalculationOutcome => {
  const fields: Readonly<Record<string, unknown>> = analysis.fields.calculation;
  const problems: InputProblem[] = [];
  const contact = choiceAt(fields, 'contact', [...contactDurations], problems, true);
  const devices = optionalNumberAt(fields, 'devices', problems) ?? 1;
  const mass = optionalNumberAt(fields, 'body_mass', problems) ?? adultMass;
  requireThat(
    Number.isSafeInteger(devices) && devices >= 1,
    'devices',
    'a whole number of at least 1',
    problems,
  );
  requireThat(mass > 0, 'body_mass', 'above 0', problems);
  const applicable = limitsForContact(contact);
  const measured = readMeasured(fields, applicable, { devices, mass }, problems);
  const irritation =
    typeof fields['irritation_shown_by'] === 'string' ? fields['irritation_shown_by'] : undefined;
  const substances = new Set(measured.map((each) => each.limit.substance));
  substances.add('ethylene oxide');
  const missing = applicable.filter(
    (limit) =>
      substances.has(limit.substance) &&
      !(limit.period === 'surface' && irritation !== undefined) &&
      !measured.some((each) => each.limit === limit),
  );
  if (problems.length === 0)
    for (const { substance, period } of missing)
      problems.push({
        path: ['measured'],
        message: `calculation.measured has no ${substance}, ${period}, which ${contact} contact needs${period === 'surface' ? ', or irritation_shown_by' : ''}`,
      });
  const limit = limits[0] ?? {
    characteristic: 'share of the allowable limit',
    unit: '%',
    upper: 100,
  };
  const inPercent = unitConverter(limit.unit, '%');
  if (!inPercent)
    problems.push({ path: [], message: `the limit is in ${limit.unit}; it must be a share, such as 100 %` });
  if (limit.lower !== undefined || limit.upper === undefined)
    problems.push({ path: [], message: 'the limit must have an upper end only' });
  if (problems.length > 0 || !inPercent || limit.upper === undefined) return { ok: false, problems };
  const allowedShare = Math.min(inPercent(limit.upper), 100);
  const shares = measured.map((each) => ({ ...each, share: (100 * each.amount) / each.allowed }));
  const worst = shares.reduce((one, other) => (other.share > one.share ? other : one));
  const assumptions: readonly Assumption[] = [
    {
      name: 'limits checked against the standard',
      outcome: 'not tested',
      detail: shares.some((each) => each.limit.provenance === 'from memory')
        ? 'some of these limits are from memory, the others from public quotations: check them against ISO 10993-7'
        : 'these limits are from public quotations: check them against ISO 10993-7',
    },
    ...(substances.has('ethylene chlorohydrin')
      ? []
      : [
          {
            name: 'no ethylene chlorohydrin',
            outcome: 'not tested' as const,
            detail: 'none is given; it must be measured where chlorides can form it',
          },
        ]),
    ...(irritation === undefined
      ? []
      : [
          {
            name: 'surface does not irritate',
            outcome: 'not tested' as const,
            detail: `shown by ${irritation} in place of the limit of the surface`,
          },
        ]),
    ...(mass < adultMass
      ? [
          {
            name: 'limits in proportion to body mass',
            outcome: 'not tested' as const,
            detail: `${mass} kg instead of ${adultMass} kg; the amendment of 2019 has figures of its own for small patients`,
          },
        ]
      : []),
  ];
  return {
    ok: true,
    characteristics: [
      {
        limits: limit,
        verdict: worst.share <= allowedShare * (1 + 1e-12) ? 'pass' : 'fail',
        reason: `the worst is ${worst.limit.substance}, ${worst.limit.period}: ${withUnit(fixed(worst.amount, 3), worst.limit.unit)} of ${withUnit(Number(worst.allowed.toPrecision(6)), worst.limit.unit)}, ${percent(worst.share / 100, 1)}; allowed ${percent(allowedShare / 100)}`,
        sampleSize: measured.length,
        readings: [],
        values: [
          namedValue('largest_share', 'largest share of a limit', worst.share, '%', 1),
          ...shares.map(({ limit: of, share }, index) =>
            namedValue(`residue_${index + 1}`, `${of.substance}, ${of.period}`, share, '%', 1),
          ),
        ],
        assumptions,
        tables: [
          {
            title: 'Residues against their limits',
            columns: ['residue', 'amount', 'limit', 'share', 'limit from'],
            rows: shares.map(({ limit: of, amount, allowed, share }) => [
              `${of.substance}, ${of.period}`,
              withUnit(fixed(amount, 3), of.unit),
              withUnit(Number(allowed.toPrecision(6)), of.unit),
              percent(share / 100, 1),
              of.provenance,
            ]),
          },
        ],
      },
    ],
  };
};

export const residues: Calculation = {
  name: 'residues',
  title: 'Residues of ethylene oxide',
  basis: 'allowable limits of ISO 10993-7:2008, clause 4.3, some of them from memory',
  explain: `Residues of ethylene oxide and ethylene chlorohydrin against their allowable limits. The result is the largest share of a limit; all limits that the duration of contact has must be kept together.

For an adult of 70 kg. Ethylene oxide: 4 mg in the first day, 60 mg in the first 30 days (prolonged contact), 2.5 g in a lifetime (permanent contact), 10 µg/cm² on the surface. Ethylene chlorohydrin: 9 mg, 60 mg, 10 g, 5 mg/cm². The figures for ethylene oxide and those for surfaces come from public quotations of ISO 10993-7:2008, the other ones from memory: check all of them against the standard and its amendment of 2019. Devices for special uses, such as oxygenators and blood purifiers, have limits of their own that are not here.

Inputs: \`contact\` (limited: up to 24 h, prolonged: up to 30 d, permanent), \`measured\` (\`substance\`, \`period\`: first day, first 30 days, lifetime or surface, \`amount\`, \`unit\`), \`devices\` used together on one patient (doses add up), \`body_mass\` in kg where it is below 70 (doses in proportion), \`irritation_shown_by\` the record that shows that the surface does not irritate, in place of the limit of the surface.

Caution: amounts are doses to a patient in mg, not contents in ppm; what counts is the extract by simulated use or exhaustion, at the time of release.`,
  calculate,
};

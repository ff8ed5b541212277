import { valueText } from '../evidence/number-text.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { firstUncoveredDay, type Period } from '../records/period.ts';
import { isOfType, type RecordOf, type TechnicalRecord } from '../records/record.ts';
import { type Fact, type FactInputs, fact } from './fact.ts';

const period = ({ from, to }: Period): string => (from === to ? from : `${from} to ${to}`);

/** Certificates of equipment that hold over the days of the work, or the first day that none covers. */
const calibration = (equipment: string, work: Period, graph: TraceGraph): string => {
  const record = graph.recordOf('equipment', equipment);
  if (!record) return `${equipment}: no such equipment`;
  const holding = record.fields.calibrations.filter((each) => each.from <= work.to && each.to >= work.from);
  const gap = firstUncoveredDay(work, record.fields.calibrations);
  return gap === undefined
    ? `${equipment} ${record.fields.tag}: ${holding.map((each) => `certificate ${each.certificate}, ${period(each)}`).join('; ')}`
    : `${equipment} ${record.fields.tag}: no certificate covers ${gap}`;
};

/** What the evaluation found: bound, verdict, reason, and the raw data with the number of rows. */
export const resultFacts = (record: TechnicalRecord, { evidence, rawData }: FactInputs): readonly Fact[] => {
  const result = evidence.get(record.id);
  if (!result) return [{ name: 'Verdict', value: 'none: nothing could be computed' }];
  const raw = rawData.get(record.id);
  return [
    ...(result.method === ''
      ? []
      : [{ name: 'Method', value: `${result.method.replaceAll('-', ' ')}: ${result.basis}` }]),
    ...result.characteristics.flatMap((each) => [
      ...(each.values.length === 0
        ? []
        : [
            {
              name: 'Computed',
              value: `${each.limits.characteristic}: ${each.values
                .map((value) => `${value.label} ${valueText(value)}`)
                .join(', ')}`,
            },
          ]),
      ...each.assumptions.map((assumption) => ({
        name: 'Assumption',
        value: `${assumption.name}: ${assumption.outcome}, ${assumption.detail}`,
      })),
    ]),
    { name: 'Verdict', value: `${result.verdict}: ${result.reason}` },
    ...(raw
      ? [
          {
            name: 'Raw data',
            value: `${raw.file}, ${raw.rows === undefined ? 'not readable as a table' : `${raw.rows} rows`}, ${result.unitCount} units counted`,
          },
          { name: 'Its SHA-256', value: raw.digest },
          ...(raw.statedDigest !== undefined && raw.statedDigest !== raw.digest
            ? [{ name: 'Differs', value: `the record states ${raw.statedDigest}` }]
            : []),
        ]
      : isOfType(record, 'analysis')
        ? []
        : [{ name: 'Raw data', value: 'the file is missing' }]),
    ...fact('Lots', result.lots.join(', ')),
  ];
};

type TestRecord = RecordOf<'verification-record'> | RecordOf<'validation-record'>;

const exclusions = (record: TestRecord): readonly Fact[] =>
  (record.fields.exclusions ?? []).map(({ unit, reason, deviation }) => ({
    name: 'Excluded',
    value: `${unit}: ${reason} (${deviation ?? 'no deviation named'})`,
  }));

/** What a record of a test says: when, on what, with what, what was left out, what repeats what, and what it shows. */
export const testFacts = (record: TestRecord, inputs: FactInputs): readonly Fact[] => {
  const { graph } = inputs;
  const { executed, tested = [], result } = record.fields;
  const verification = isOfType(record, 'verification-record') ? record.fields : undefined;
  const equipment = verification?.equipment ?? [];
  const repetitions = graph.linksTo(record.id, 'retests').map((link) => link.from);
  return [
    { name: 'Carried out', value: period(executed) },
    ...fact('Operator', verification?.operator),
    ...fact(
      'Repeats',
      verification?.retests &&
        `${verification.retests}, ${verification.because ? `because of ${verification.because}` : 'no reason named'}`,
    ),
    ...fact('Repeated by', repetitions.join(', ')),
    {
      name: 'Tested',
      value: tested.map((each) => `${each.output} revision ${each.revision}`).join(', ') || 'no output named',
    },
    ...(verification && equipment.length === 0 ? [{ name: 'Equipment', value: 'none named' }] : []),
    ...equipment.map((id) => ({ name: 'Equipment', value: calibration(id, executed, graph) })),
    ...exclusions(record),
    ...resultFacts(record, inputs),
    { name: 'Stated result', value: result },
  ];
};

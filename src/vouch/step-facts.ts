import { limitWords } from '../evidence/limit-words.ts';
import { confidenceReliability, fixed } from '../evidence/number-text.ts';
import type { EvidenceResult } from '../evidence/result.ts';
import { estimateRisk } from '../evidence/risk-estimate.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { firstUncoveredDay, type Period } from '../records/period.ts';
import type { Project } from '../records/project.ts';
import { isOfType, type TechnicalRecord } from '../records/record.ts';
import { withUnit } from '../records/units.ts';

/** Something that a record says and that a step of the walk shows. */
export interface Fact {
  readonly name: string;
  readonly value: string;
}

export interface FactInputs {
  readonly graph: TraceGraph;
  readonly project: Project;
  readonly evidence: ReadonlyMap<string, EvidenceResult>;
}

interface Limit {
  readonly characteristic: string;
  readonly unit?: string;
  readonly lower?: number;
  readonly upper?: number;
  readonly criterion?: string;
}

const limits = (record: TechnicalRecord, field: string, name: string): readonly Fact[] =>
  ((record.fields[field] ?? []) as readonly Limit[]).map(({ characteristic, unit, criterion }, index) => {
    const lower = record.yaml.written([field, index, 'lower']);
    const upper = record.yaml.written([field, index, 'upper']);
    return {
      name,
      value: `${characteristic} ${limitWords({
        ...(lower === undefined ? {} : { lower }),
        ...(upper === undefined ? {} : { upper }),
        ...(unit === undefined ? {} : { unit }),
        ...(criterion === undefined ? {} : { criterion }),
      })}`,
    };
  });

const fact = (name: string, value: string | undefined): readonly Fact[] =>
  value === undefined || value === '' ? [] : [{ name, value }];

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

/** What the evaluation found: bound, verdict, reason, raw data. */
const results = (result: EvidenceResult | undefined): readonly Fact[] => {
  if (!result) return [];
  return [
    { name: 'Method', value: `${result.method.replaceAll('-', ' ')}: ${result.basis}` },
    ...result.characteristics.flatMap((each) => [
      {
        name: 'Computed',
        value: `${each.limits.characteristic}: ${each.values
          .map((value) => `${value.label} ${withUnit(fixed(value.value, value.decimals), value.unit)}`)
          .join(', ')}`,
      },
      ...each.assumptions.map((assumption) => ({
        name: 'Assumption',
        value: `${assumption.name}: ${assumption.outcome}, ${assumption.detail}`,
      })),
    ]),
    { name: 'Verdict', value: `${result.verdict}: ${result.reason}` },
    ...fact('Units', String(result.unitCount)),
    ...fact('Excluded', result.excludedUnits.join(', ')),
    ...fact('Lots', result.lots.join(', ')),
    ...fact('Raw data', result.dataFile),
    ...fact('SHA-256 of the raw data', result.dataDigest),
  ];
};

/** What an auditor wants to see of a record at its place in the chain. */
export const factsOf = (record: TechnicalRecord, inputs: FactInputs): readonly Fact[] => {
  const { graph, project, evidence } = inputs;
  if (!record.sound) return [{ name: 'Not judged', value: 'the record does not meet its schema' }];
  if (isOfType(record, 'design-input')) return limits(record, 'limits', 'Limit');
  if (isOfType(record, 'design-output'))
    return [
      ...fact('Drawing', record.fields.drawing),
      ...fact('Revision', record.fields.revision),
      ...(record.fields.characteristics ?? [])
        .filter((each) => each.essential === true)
        .map((each, _index) => ({
          name: 'Essential',
          value: `${each.name} ${withUnit(`${each.nominal} +${each.plus ?? 0} −${each.minus ?? 0}`, each.unit ?? '1')}`,
        })),
    ];
  if (isOfType(record, 'verification-protocol') || isOfType(record, 'validation-protocol')) {
    const { sampling } = record.fields;
    return [
      ...limits(record, 'acceptance', 'Acceptance'),
      ...(isOfType(record, 'verification-protocol') ? fact('Condition', record.fields.condition) : []),
      ...(sampling
        ? fact(
            'Sample',
            [
              sampling.kind.replaceAll('-', ' '),
              sampling.confidence !== undefined && sampling.reliability !== undefined
                ? confidenceReliability(sampling.confidence, sampling.reliability)
                : undefined,
              sampling.size === undefined ? undefined : `${sampling.size} units`,
            ]
              .filter((part) => part !== undefined)
              .join(', '),
          )
        : []),
      ...fact('Why this sample', sampling?.rationale),
    ];
  }
  if (isOfType(record, 'verification-record') || isOfType(record, 'validation-record'))
    return [
      { name: 'Carried out', value: period(record.fields.executed) },
      ...(isOfType(record, 'verification-record')
        ? fact(
            'Repeats',
            record.fields.retests &&
              `${record.fields.retests}${record.fields.because ? `, because of ${record.fields.because}` : ''}`,
          )
        : []),
      ...fact(
        'Repeated by',
        graph
          .linksTo(record.id, 'retests')
          .map((link) => link.from)
          .join(', '),
      ),
      ...fact(
        'Tested',
        (record.fields.tested ?? []).map((each) => `${each.output} revision ${each.revision}`).join(', '),
      ),
      ...(isOfType(record, 'verification-record')
        ? (record.fields.equipment ?? []).map((id) => ({
            name: 'Equipment',
            value: calibration(id, record.fields.executed, graph),
          }))
        : []),
      ...results(evidence.get(record.id)),
      { name: 'Stated result', value: record.fields.result },
    ];
  if (isOfType(record, 'analysis'))
    return [...results(evidence.get(record.id)), { name: 'Stated result', value: record.fields.result }];
  if (isOfType(record, 'test-method'))
    return [
      { name: 'Measures', value: record.fields.characteristic },
      ...(record.fields.resolution === undefined
        ? []
        : fact('Resolution', withUnit(record.fields.resolution, record.fields.unit ?? '1'))),
      ...results(evidence.get(record.id)),
    ];
  if (isOfType(record, 'risk')) {
    const criteria = project.fields.risk;
    const estimate = (name: string, values: { readonly p1: number; readonly p2: number }): Fact => {
      const found = criteria ? estimateRisk(record.fields.severity, values, criteria) : undefined;
      return {
        name,
        value: `P1 ${values.p1}, P2 ${values.p2}${found ? `, band ${found.band}, ${found.acceptable ? 'within' : 'beyond'} what the plan accepts` : ''}`,
      };
    };
    return [
      { name: 'Harm', value: `${record.fields.harm} (${record.fields.severity})` },
      estimate('Before control', record.fields.before),
      estimate('After control', record.fields.after),
    ];
  }
  if (isOfType(record, 'risk-control')) return [{ name: 'Option', value: record.fields.option }];
  if (isOfType(record, 'legal-requirement'))
    return [
      { name: 'Clause', value: `${record.fields.table} ${record.fields.clause}` },
      { name: 'Applicable', value: record.fields.applicable ? 'yes' : 'no' },
      ...fact('Solution', record.fields.solution),
    ];
  if (isOfType(record, 'deviation'))
    return [
      ...fact('Impact', record.fields.impact),
      ...fact('Disposition', record.fields.disposition),
      ...fact('Closed', record.fields.closed),
    ];
  if (isOfType(record, 'design-review'))
    return [
      { name: 'Held', value: `${record.fields.date}, ${record.fields.stage}` },
      ...fact('Independent reviewer', record.fields.independent_reviewer),
    ];
  if (isOfType(record, 'design-change'))
    return [
      { name: 'Decided', value: record.fields.date },
      ...fact('Significance', record.fields.significance),
    ];
  if (isOfType(record, 'equipment')) return [{ name: 'Tag', value: record.fields.tag }];
  if (isOfType(record, 'standard'))
    return fact('Edition', [record.fields.designation, record.fields.edition].filter(Boolean).join(':'));
  if (isOfType(record, 'material'))
    return [...fact('Contact', record.fields.contact), ...fact('Duration', record.fields.duration)];
  return [];
};

import { limitWords, writtenBounds } from '../evidence/limit-words.ts';
import { confidenceReliability } from '../evidence/number-text.ts';
import { estimateRisk, type StatedEstimate } from '../evidence/risk-estimate.ts';
import { applicabilityWords, isDecided, type LegalRow, legalRowsOf } from '../graph/legal-rows.ts';
import { sectionsOf } from '../records/prose.ts';
import { isOfType, type TechnicalRecord } from '../records/record.ts';
import { withUnit } from '../records/units.ts';
import { type Fact, type FactInputs, fact } from './fact.ts';
import { resultFacts, testFacts } from './result-facts.ts';

interface Limit {
  readonly characteristic: string;
  readonly unit?: string;
  readonly lower?: number;
  readonly upper?: number;
  readonly criterion?: string;
}

const limits = (record: TechnicalRecord, field: string, name: string): readonly Fact[] =>
  ((record.fields[field] ?? []) as readonly Limit[]).map(({ characteristic, unit, criterion }, index) => ({
    name,
    value: `${characteristic} ${limitWords({
      ...writtenBounds(record, [field, index]),
      ...(unit === undefined ? {} : { unit }),
      ...(criterion === undefined ? {} : { criterion }),
    })}`,
  }));

/** What the record says, with what its place in the chain adds. The first paragraph of the body comes first. */
export const factsOf = (record: TechnicalRecord, inputs: FactInputs): readonly Fact[] =>
  record.sound
    ? [...statement(record), ...fieldFacts(record, inputs)]
    : [{ name: 'Not judged', value: 'the record does not meet its schema' }];

/** The first paragraph of the body, or the wording of a claim. A document's body is laid out elsewhere, and comments are for its writer. */
const statement = (record: TechnicalRecord): readonly Fact[] => {
  if (record.type === 'document') return [];
  // A claim is its wording; the body below it is for readers of the file.
  if (isOfType(record, 'claim')) return fact('Statement', record.fields.wording);
  const [first] = (sectionsOf(record.body)[0]?.text ?? '')
    .split(/\n[ \t]*\n/)
    .map((paragraph) => paragraph.replace(/\s+/g, ' ').trim())
    .filter((paragraph) => paragraph !== '' && !paragraph.startsWith('<!--'));
  return fact('Statement', first);
};

/** What an auditor wants to see of a record of each type. What should be there and is not is named as missing. */
const fieldFacts = (record: TechnicalRecord, inputs: FactInputs): readonly Fact[] => {
  const { project } = inputs;
  if (isOfType(record, 'design-input')) return limits(record, 'limits', 'Limit');
  if (isOfType(record, 'claim'))
    return [
      ...limits(record, 'limits', 'Limit'),
      ...fact('Stated in', record.fields.stated_in?.join(', ')),
      ...(record.fields.words ?? []).map(({ word, reason }) => ({
        name: 'Word',
        value: `${word}: ${reason}`,
      })),
    ];
  if (isOfType(record, 'design-output'))
    return [
      ...fact('Drawing', record.fields.drawing),
      ...fact('Revision', record.fields.revision),
      ...(record.fields.characteristics ?? [])
        .filter((each) => each.essential === true)
        .map((each) => ({
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
      ...fact('Rationale', sampling?.rationale),
    ];
  }
  if (isOfType(record, 'verification-record') || isOfType(record, 'validation-record'))
    return testFacts(record, inputs);
  if (isOfType(record, 'analysis'))
    return [...resultFacts(record, inputs), { name: 'Stated result', value: record.fields.result }];
  if (isOfType(record, 'test-method'))
    return [
      { name: 'Measures', value: record.fields.characteristic },
      ...(record.fields.resolution === undefined
        ? []
        : fact('Resolution', withUnit(record.fields.resolution, record.fields.unit ?? '1'))),
      ...(record.fields.study
        ? resultFacts(record, inputs)
        : [{ name: 'Study', value: 'none recorded as data' }]),
    ];
  if (isOfType(record, 'risk')) {
    const criteria = project.fields.risk;
    const estimate = (name: string, values: StatedEstimate): Fact => {
      const found = criteria ? estimateRisk(record.fields.severity, values, criteria) : undefined;
      return {
        name,
        value: [
          values.not_estimable === undefined
            ? `P1 ${values.p1}, P2 ${values.p2}`
            : `not estimable: ${values.not_estimable.replace(/\.$/, '')}`,
          ...(values.severity === undefined ? [] : [`severity ${values.severity}`]),
          ...(found?.kind === 'by probability' ? [`band ${found.band}`] : []),
          ...(found ? [`${found.acceptable ? 'within' : 'beyond'} what the plan accepts`] : []),
        ].join(', '),
      };
    };
    return [
      { name: 'Harm', value: `${record.fields.harm} (${record.fields.severity})` },
      estimate('Before control', record.fields.before),
      estimate('After control', record.fields.after),
    ];
  }
  if (isOfType(record, 'risk-control'))
    return [
      { name: 'Option', value: record.fields.option },
      ...fact('Seen in place', record.fields.in_place?.statement),
    ];
  if (isOfType(record, 'risk-plan')) return [{ name: 'Scope', value: record.fields.scope }];
  if (isOfType(record, 'risk-review'))
    return [
      { name: 'Held', value: record.fields.date },
      { name: 'Overall risk', value: record.fields.overall_residual_risk.decision },
    ];
  if (isOfType(record, 'legal-requirement')) {
    const rows = legalRowsOf(record);
    const count = (which: (row: LegalRow) => boolean): number => rows.filter(which).length;
    return [
      { name: 'Clause', value: `${record.fields.table} ${record.fields.clause}` },
      {
        name: 'Applicable',
        value:
          rows.length === 1
            ? applicabilityWords(record.fields.applicable)
            : `${count((row) => row.applicable === true)} of ${rows.length} clauses apply, ${count((row) => row.applicable === false)} do not, ${count((row) => !isDecided(row))} not decided`,
      },
      ...fact('Solution', record.fields.solution),
    ];
  }
  if (isOfType(record, 'deviation'))
    return [
      ...fact('Impact', record.fields.impact),
      ...fact('Disposition', record.fields.disposition),
      ...fact('Closed', record.fields.closed),
    ];
  if (isOfType(record, 'design-review'))
    return [
      { name: 'Held', value: `${record.fields.date}, ${record.fields.stage}` },
      ...fact('Independent', record.fields.independent_reviewer),
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

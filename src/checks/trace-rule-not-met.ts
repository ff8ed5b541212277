import type { PlinthFields } from '../records/fields.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

type Rule = NonNullable<PlinthFields['trace_rules']>[number];

const holdsFor = (rule: Rule, record: TechnicalRecord): boolean =>
  record.sound &&
  record.type === rule.type &&
  (rule.status ? rule.status.some((status) => status === record.status) : record.status !== 'retired') &&
  Object.entries(rule.where ?? {}).every(
    ([name, value]) => Object.hasOwn(record.fields, name) && record.fields[name] === value,
  );

/** Records at the other end of the rule's links that count, each once. */
const counted = (rule: Rule, record: TechnicalRecord, { graph }: CheckContext): readonly string[] => {
  const links =
    rule.direction === 'in' ? graph.linksTo(record.id, rule.link) : graph.linksFrom(record.id, rule.link);
  const ids = new Set(links.map((link) => (rule.direction === 'in' ? link.from : link.to)));
  return [...ids].filter((id) => {
    const other = graph.record(id);
    return (
      other !== undefined &&
      (rule.types ? rule.types.includes(other.type) : true) &&
      (rule.counted ? rule.counted.some((status) => status === other.status) : other.status !== 'retired')
    );
  });
};

export const traceRuleNotMet = defineCheck({
  code: 'trace-rule-not-met',
  level: 'error',
  title: 'A record lacks a link that a trace rule of this file asks for',
  basis: 'ISO 13485:2016 7.3.2 e) (traceability of outputs to inputs); the clause that the rule names',
  explain:
    'plinth.yaml holds rules of its own under `trace_rules`: records of a type, in a status, must be linked with so many records of other types. This record has fewer. The finding names the rule, the clause or procedure that asks for it, and has the level that the rule gives it.\n\nThe checks that come with the tool ask for what every technical file needs. A team may ask for more, such as two protocols for an essential characteristic, or a review of every approved input, and then CI holds it to that.\n\nAdd the missing link or record. If the rule is wrong for this record, narrow it with `status` or `where`, or have the finding waived with a reason.',
  examines: 'records that trace rules hold for',
  subjects: ({ project, graph }) =>
    (project.fields.trace_rules ?? []).flatMap((rule, index) =>
      [...graph.records.values()]
        .filter((record) => holdsFor(rule, record))
        .map((record) => ({ rule, index, record })),
    ),
  judge: ({ rule, index, record }, context) => {
    const found = counted(rule, record, context);
    const minimum = rule.minimum ?? 1;
    if (found.length >= minimum) return [];
    const wanted = `${minimum === 1 ? 'a record' : `${minimum} records`} ${rule.types ? `of type ${rule.types.join(' or ')} ` : ''}${rule.direction === 'in' ? `that name${minimum === 1 ? 's' : ''} it` : 'named'} under "${rule.link}"`;
    const clause = rule.clause === undefined ? '' : `, ${rule.clause}`;
    const place = context.project.yaml.place(['trace_rules', index]);
    return [
      {
        level: rule.level ?? 'error',
        place: placeOf(record, 'id'),
        message: `${record.id} "${record.title}" lacks ${wanted}: ${found.length === 0 ? 'none' : found.join(', ')} found (rule "${rule.name}"${clause})`,
        hint: `Add what is missing${rule.reason ? `; the rule says: ${rule.reason}` : ', or narrow the rule in plinth.yaml'}`.replace(
          /[.]?$/,
          '.',
        ),
        records: [record.id],
        related: [{ place, message: `the rule "${rule.name}"` }],
        data: { rule: rule.name, found: found.length, minimum },
      },
    ];
  },
});

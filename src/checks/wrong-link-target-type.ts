import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const wrongLinkTargetType = defineCheck({
  code: 'wrong-link-target-type',
  level: 'error',
  title: 'A link names a record of the wrong type',
  basis: 'ISO 13485:2016 7.3.2 (traceability of outputs to inputs)',
  explain:
    'The record that the link names exists, but a link of this kind may not lead to its type: a design output satisfies design inputs, for example, not user needs. Checks and tables follow links by type, so this one is walked past and what should be shown by it counts as not shown.\n\nName the record that is meant, or move the id to the field for its type. `plinth explain` of a record type, or its schema, lists what each field may name.',
  examines: 'links to existing records',
  subjects: ({ graph }) =>
    [...graph.records.values()]
      .filter((record) => record.status !== 'retired')
      .flatMap((record) => graph.linksFrom(record.id)),
  judge: (link, { graph }) => {
    const record = graph.record(link.from);
    const target = graph.record(link.to);
    // A target whose type no schema describes is reported where it is read.
    if (!record || !target || !graph.types.has(target.type)) return [];
    if (link.allowed.includes('*') || link.allowed.includes(target.type)) return [];
    const wanted = link.allowed.join(' or ');
    return [
      {
        place: placeOf(record, ...link.path),
        message: `${link.from} ${link.relation} ${link.to}, a record of type ${target.type}, expected ${wanted}`,
        hint: `Name a record of type ${wanted} here, or move ${link.to} to the field that it belongs to.`,
        records: [link.from],
        related: [{ place: placeOf(target, 'type'), message: `${link.to} is of type ${target.type}` }],
        data: { target: link.to, field: link.field },
      },
    ];
  },
});

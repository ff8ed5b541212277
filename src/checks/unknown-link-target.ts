import { nearestName } from '../records/nearest-name.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const unknownLinkTarget = defineCheck({
  code: 'unknown-link-target',
  level: 'error',
  title: 'A link names a record that does not exist',
  basis: 'ISO 13485:2016 7.3.2 e) (traceability of outputs to inputs)',
  explain:
    'A link in the front matter names an id that no record has. The chain of traceability ends there, and whatever should follow is not checked.\n\nCorrect the id, or add the record (`plinth new TYPE`).',
  examines: 'links',
  subjects: ({ graph }) => [...graph.records.values()].flatMap((record) => record.links),
  judge: (link, { graph }) => {
    const record = graph.record(link.from);
    if (!record || graph.record(link.to)) return [];
    const near = nearestName(link.to, [...graph.records.keys()]);
    return [
      {
        place: placeOf(record, ...link.path),
        message: `${link.from} ${link.relation} ${link.to}, which does not exist`,
        hint: near ? `Did you mean ${near}?` : 'Correct the id, or add the record.',
        records: [link.from],
        data: { target: link.to },
      },
    ];
  },
});

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
  awaits: 'named',
  examines: 'links',
  subjects: ({ graph }) => [...graph.records.values()].flatMap((record) => record.links),
  judge: (link, { graph, files }) => {
    const record = graph.record(link.from);
    // An empty id is reported where the file is read.
    if (!record || link.to === '' || graph.record(link.to)) return [];
    const unread = [...files.keys()].find((path) => path.split('/').at(-1) === `${link.to}.md`);
    const prefix = link.to.split('-')[0]?.toUpperCase();
    const alike = [...graph.records.keys()].filter((id) => id.split('-')[0] === prefix);
    const near = nearestName(link.to.toUpperCase(), alike);
    return [
      {
        place: placeOf(record, ...link.path),
        message: `${link.from} ${link.relation} ${link.to}, which does not exist`,
        hint: unread
          ? `Mend ${unread} first: it could not be read as a record.`
          : near
            ? `Did you mean ${near}?`
            : 'Correct the id, or add the record.',
        records: [link.from],
        data: { target: link.to },
      },
    ];
  },
});

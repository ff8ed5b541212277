import { nearestName } from '../records/nearest-name.ts';
import { mentionsIn } from '../records/prose.ts';
import { placeInBody } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** `VR-03.csv` and `VP-01-rev` mention VR-03 and VP-01: the longest beginning that is a known id counts. */
const isKnown = (id: string, known: ReadonlyMap<string, unknown>): boolean => {
  for (
    let end = id.length;
    end > 0;
    end = Math.max(id.lastIndexOf('.', end - 1), id.lastIndexOf('-', end - 1))
  )
    if (known.has(id.slice(0, end))) return true;
  return false;
};

export const unknownIdInProse = defineCheck({
  code: 'unknown-id-in-prose',
  level: 'error',
  title: 'The text names a record that does not exist',
  basis: 'common practice, no source',
  explain:
    'The text of the record mentions an id that no record has. In documents, ids become cross-references by themselves; this one would lead nowhere, and a reviewer who follows it finds a gap. It is often a record that was renumbered, or one that was planned and never written.\n\nCorrect the id or add the record. Code spans, code blocks and view blocks are not looked at, so an id that is only an example can be written in backticks.',
  awaits: 'named',
  examines: 'texts of records',
  subjects: ({ graph }) => {
    const prefixes = [...graph.types.values()].map((type) => type.prefix);
    return [...graph.records.values()]
      .filter((record) => record.status !== 'retired')
      .map((record) => ({ record, prefixes }));
  },
  judge: ({ record, prefixes }, { graph, files }) => {
    const seen = new Set<string>();
    return mentionsIn(record.body, prefixes)
      .filter(({ id }) => !isKnown(id, graph.records) && !seen.has(id) && seen.add(id))
      .map(({ id, offset }) => {
        const unread = [...files.keys()].find((path) => path.split('/').at(-1) === `${id}.md`);
        const near = nearestName(id, [...graph.records.keys()]);
        return {
          place: placeInBody(record, offset, id.length),
          message: `the text of ${record.id} names ${id}, which does not exist`,
          hint: unread
            ? `Mend ${unread} first: it could not be read as a record.`
            : near
              ? `Did you mean ${near}?`
              : 'Correct the id, add the record, or write an example in backticks.',
          records: [record.id],
          data: { target: id },
        };
      });
  },
});

import type { Grid } from '../document/site.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { text } from '../views/cells.ts';
import { walkDown } from '../vouch/walk.ts';
import { idAndTitle, mark, pageLink, type SiteContext } from './site-context.ts';

/** Below these no claim about the device is shown: a study of a test method judges the method. */
const asides: ReadonlySet<string> = new Set(['test-method']);

/** The results that show a record, each with its verdict and the way to its raw data. */
export const showingParts = (record: TechnicalRecord, context: SiteContext): readonly Grid[] => {
  const { graph, evidence, raw } = context;
  if (evidence.has(record.id)) return [];
  const results = walkDown(graph, record.id).flatMap(({ id }) => {
    const result = evidence.get(id);
    const found = graph.record(id);
    return result && found && !asides.has(found.type) ? [{ result, found }] : [];
  });
  if (results.length === 0) return [];
  return [
    {
      kind: 'grid',
      id: `shown-${record.id}`,
      caption: `Results on which ${record.id} rests`,
      ...(results.length > 12 ? {} : { isPlain: true }),
      whenEmpty: 'No result yet.',
      columns: [
        { title: 'Result', width: 24 },
        { title: 'Planned in', width: 24 },
        { title: 'Verdict', width: 12, isChoice: true },
        { title: 'Why', width: 28 },
        { title: 'Raw data', width: 12 },
      ],
      rows: results.map(({ result, found }) => {
        const protocol = result.protocol === undefined ? undefined : graph.record(result.protocol);
        const repeated = graph.linksTo(found.id, 'retests')[0]?.from;
        const file = result.dataFile === undefined ? undefined : raw.get(result.dataFile);
        return {
          cells: [
            idAndTitle(found),
            protocol ? idAndTitle(protocol) : [text('–')],
            [mark(result.verdict)],
            [
              text(result.reason),
              ...(repeated === undefined
                ? []
                : [text('; repeated by '), { kind: 'record-reference', id: repeated } as const]),
            ],
            file ? [pageLink(file.pagePath, text(file.file.split('/').at(-1) ?? file.file))] : [text('none')],
          ],
        };
      }),
    },
  ];
};

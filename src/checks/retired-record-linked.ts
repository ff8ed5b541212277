import { allTargetsRetired } from '../graph/link-targets.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Links that tell what happened; they keep naming a record after it has been retired. */
const history: ReadonlySet<string> = new Set([
  'retests',
  'because',
  'against',
  'reviewed',
  'changes',
  'affected',
  'decisions',
]);

export const retiredRecordLinked = defineCheck({
  code: 'retired-record-linked',
  level: 'error',
  title: 'A record rests on a retired one',
  basis: 'ISO 13485:2016 4.2.4 (obsolete documents are not used)',
  explain:
    'A record that is in force names one that has been retired. Retired means that it no longer holds: a control that is shown by a retired protocol, or a protocol for a retired input, shows nothing about the device as it is now.\n\nLink to the record that has taken its place, or remove the link. Links that tell what happened (repetitions, deviations, reviews, design changes) may name retired records. A record that reports a retired protocol, and an output all of whose inputs are retired, are reported by checks of their own.',
  examines: 'links of records in force',
  subjects: ({ graph }) =>
    [...graph.records.values()]
      .filter((record) => record.status !== 'retired')
      .flatMap((record) => graph.linksFrom(record.id))
      .filter((link) => !history.has(link.field) && link.field !== 'reports'),
  judge: (link, { graph }) => {
    const record = graph.record(link.from);
    const target = graph.record(link.to);
    if (!record || target?.status !== 'retired') return [];
    if (link.field === 'satisfies' && allTargetsRetired(graph, record, 'satisfies')) return [];
    return [
      {
        place: placeOf(record, ...link.path),
        message: `${link.from} ${link.relation} ${link.to}, which is retired`,
        hint: `Link to the record that has taken the place of ${link.to}, or remove the link.`,
        records: [link.from, link.to],
        related: [{ place: placeOf(target, 'status'), message: `${link.to} is retired` }],
        data: { field: link.field },
      },
    ];
  },
});

import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

interface LatestChange {
  readonly output: RecordOf<'design-output'>;
  readonly change: RecordOf<'design-change'>;
  readonly index: number;
}

/** For each output that any change names, the change with the latest date; of one day, the last id. */
const latestChanges = ({ graph }: CheckContext): readonly LatestChange[] => {
  const latest = new Map<string, LatestChange>();
  for (const change of graph.recordsOf('design-change')) {
    if (change.status === 'retired') continue;
    for (const [index, entry] of change.fields.changes.entries()) {
      const output = graph.recordOf('design-output', entry.output);
      const known = latest.get(entry.output);
      if (!output || output.status === 'retired') continue;
      if (!known || change.fields.date >= known.change.fields.date)
        latest.set(entry.output, { output, change, index });
    }
  }
  return [...latest.values()];
};

export const changeRevisionDiffers = defineCheck({
  code: 'change-revision-differs',
  level: 'error',
  title: 'A design output is not at the revision that its latest change leads to',
  basis: 'ISO 13485:2016 7.3.9 and 4.2.4',
  explain:
    'The latest approved design change of the output ends at one revision and the output states another. Either the output was changed without a design change, or the change was approved and never carried out. While a change is not yet approved, the earlier revision is right as well.\n\nWhich drawing is made, and which one the tests and the risk file speak of, is then unknown; parts of the wrong revision reach patients in just this way.\n\nFind out which revision is released. Add the design change that is missing, or bring the output to the revision that was decided.',
  examines: 'design outputs with changes',
  subjects: latestChanges,
  judge: ({ output, change, index }) => {
    const entry = change.fields.changes[index];
    const { revision } = output.fields;
    if (!entry || revision === entry.to) return [];
    if (change.status !== 'approved' && revision === entry.from) return [];
    return [
      {
        place: placeOf(output, 'revision'),
        message: `${output.id} is at revision ${revision}, but its latest change ${change.id} leads from ${entry.from} to ${entry.to}`,
        hint: `Add the design change to revision ${revision}, or bring ${output.id} to revision ${entry.to}.`,
        records: [output.id, change.id],
        related: [
          { place: placeOf(change, 'changes', index, 'to'), message: `${change.id} leads to ${entry.to}` },
        ],
        data: { revision, expected: entry.to },
      },
    ];
  },
});

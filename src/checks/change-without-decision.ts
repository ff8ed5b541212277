import { testsAtRevision } from '../graph/tested-revisions.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const changeWithoutDecision = defineCheck({
  code: 'change-without-decision',
  level: 'error',
  title: 'A design change leaves open whether tests of the earlier revision still hold',
  basis: 'ISO 13485:2016 7.3.9',
  explain:
    'The change takes a design output from one revision to the next. Verification or validation records tested that output at the earlier revision, and the change does not say of each of them under `decisions` whether the test is repeated or still holds, and why.\n\nThe tests show something about parts that are no longer made. Often they still hold, but somebody has to say so: a thicker snap may need more force to assemble, and a longer tip may bend.\n\nGo through the records that the finding names and add a decision with its reason for each.',
  examines: 'outputs changed by design changes',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-change')
      .filter((change) => change.status !== 'retired')
      .flatMap((change) => change.fields.changes.map((entry, index) => ({ change, entry, index }))),
  judge: ({ change, entry, index }, { graph }): readonly Draft[] => {
    const decided = new Set((change.fields.decisions ?? []).map((decision) => decision.record));
    const open = testsAtRevision(graph, entry.output, entry.from).filter((record) => !decided.has(record.id));
    if (open.length === 0) return [];
    const ids = open.map((record) => record.id);
    return [
      {
        place: placeOf(change, 'changes', index, 'output'),
        message: `${change.id} changes ${entry.output} from revision ${entry.from} to ${entry.to} without a decision on ${ids.join(', ')}`,
        hint: `Add a decision, "repeat" or "still valid" with its reason, for ${ids.join(', ')}.`,
        records: [change.id, entry.output, ...ids],
        related: open.map((record) => ({
          place: placeOf(record, 'tested'),
          message: `${record.id} tested revision ${entry.from}`,
        })),
        data: { output: entry.output, open: ids },
      },
    ];
  },
});

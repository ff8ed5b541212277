import { repetitionsOf, type TestRecord, testedAt, testRecords } from '../graph/tested-revisions.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const decidedRepeatMissing = defineCheck({
  code: 'decided-repeat-missing',
  level: 'error',
  title: 'A test that was to be repeated after a design change has not been',
  basis: 'ISO 13485:2016 7.3.9',
  explain:
    'The design change decided to repeat a test because the earlier one no longer holds for the new revision, and no record repeats it: none names the earlier record under `retests`, and for a study with users none follows under the same protocol.\n\nThe decision itself says that the new revision is not shown. Until the test is repeated, nobody knows whether the part that patients meet holds.\n\nCarry out the test on the new revision and record it with `retests`, or decide again, with the reason, that the earlier one still holds.',
  awaits: ['verification-protocol', 'verification-record'],
  examines: 'decisions to repeat a test',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-change')
      .filter((change) => change.status !== 'retired')
      .flatMap((change) =>
        (change.fields.decisions ?? [])
          .map((decision, index) => ({ change, decision, index }))
          .filter(({ decision }) => decision.decision === 'repeat'),
      ),
  judge: ({ change, decision, index }, { graph }) => {
    const tested = testRecords(graph).find((record) => record.id === decision.record);
    const isKept = (record: TestRecord): boolean =>
      change.fields.changes.some(({ output, to }) => testedAt(record, output, to));
    if (!tested || repetitionsOf(graph, tested).some(isKept)) return [];
    return [
      {
        place: placeOf(change, 'decisions', index, 'record'),
        message: `${change.id} decides to repeat ${tested.id}, but no record repeats it on the new revision`,
        hint:
          tested.type === 'verification-record'
            ? `Repeat the test and record it with "retests: ${tested.id}".`
            : `Repeat the study under ${tested.fields.reports} and record it.`,
        records: [change.id, tested.id],
        related: [{ place: placeOf(tested, 'id'), message: `${tested.id}, to be repeated` }],
      },
    ];
  },
});

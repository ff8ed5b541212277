import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/** Revision of a record whose type has one. */
const revisionOf = (record: TechnicalRecord): string | undefined => {
  const { revision } = record.fields;
  return typeof revision === 'string' ? revision : undefined;
};

export const answerRevisionDiffers = defineCheck({
  code: 'answer-revision-differs',
  level: 'warning',
  title: 'An answer names a revision that is not the present one',
  basis: 'ISO 13485:2016 4.2.4 (changes and the current revision status are identified)',
  explain:
    'The answer to a question of an authority says to which revision a document or a drawing was changed. The file holds another revision now, or the answer names none. Either the promised change was never made, or the document has moved on and nobody has looked whether the answer still holds.\n\nAn authority that compares its letter with the file finds the difference in minutes.\n\nCorrect the revision. Where the document was revised again, see that what was promised is still in it, and say so in a further entry under `changed` with the new revision.',
  examines: 'changes made for answers to authorities',
  subjects: ({ graph }) =>
    graph
      .recordsOf('authority-question')
      .filter((question) => question.status !== 'retired')
      .flatMap((question) =>
        (question.fields.changed ?? []).map((change, index) => ({ question, change, index })),
      ),
  judge: ({ question, change, index }, { graph }): readonly Draft[] => {
    const record = graph.record(change.record);
    const current = record && revisionOf(record);
    if (!record || current === undefined) return [];
    // Of several entries on one document the last one counts: the earlier ones tell what was so.
    const last = (question.fields.changed ?? []).findLastIndex((each) => each.record === change.record);
    if (index !== last || change.to === current) return [];
    return [
      {
        place: placeOf(question, 'changed', index, change.to === undefined ? 'record' : 'to'),
        message:
          change.to === undefined
            ? `${question.id} does not say to which revision ${change.record} was changed; it is ${current} now`
            : `${question.id} says that ${change.record} was changed to revision ${change.to}; it is ${current} now`,
        hint: `Correct the revision, or see that the change still stands in revision ${current} and add an entry that says so.`,
        records: [question.id, change.record],
        related: [{ place: placeOf(record, 'revision'), message: `revision ${current}` }],
        data: { revision: current },
      },
    ];
  },
});

import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/** The words below a heading "Answer". */
const answerIn = (body: string): string =>
  /^## Answer[ \t]*\n([\s\S]*?)(?=^## |$(?![\s\S]))/m.exec(body)?.[1]?.trim() ?? '';

export const answerIncomplete = defineCheck({
  code: 'answer-incomplete',
  level: 'error',
  title: 'A question was answered, and the record does not say how',
  basis: 'common practice, no source: what was told to an authority is kept with what was changed for it',
  explain:
    'The record of a question says on which day it was answered. It has no section "Answer", or it names neither what was changed for the answer nor why nothing was.\n\nAn answer is a promise about the file. Where nobody can tell which documents it touched, the next revision takes the change back unseen, and the body finds the old text at its next visit.\n\nWrite the answer under "## Answer", and list the documents and records under `changed` with their revisions, or say under `no_change` why there are none.',
  examines: 'questions that were answered',
  subjects: ({ graph }) =>
    graph
      .recordsOf('authority-question')
      .filter((question) => question.status !== 'retired' && question.fields.answered !== undefined),
  judge: (question): readonly Draft[] => {
    const { answered, changed, no_change: reason } = question.fields;
    return [
      ...(answerIn(question.body) === ''
        ? [
            {
              place: placeOf(question, 'answered'),
              message: `${question.id} was answered on ${answered}, and its text has no section "Answer"`,
              hint: 'Write what was answered under the heading "## Answer".',
              records: [question.id],
            },
          ]
        : []),
      ...((changed ?? []).length === 0 && reason === undefined
        ? [
            {
              place: placeOf(question, 'answered'),
              message: `${question.id} was answered on ${answered}, and names neither what was changed nor why nothing was`,
              hint: 'Add "changed" with records and revisions, or "no_change" with the reason.',
              records: [question.id],
            },
          ]
        : []),
    ];
  },
});

import { plainWords } from '../records/plain-words.ts';
import { proseOnly } from '../records/prose.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

type Output = RecordOf<'design-output'>;

export const disclosureNotInWording = defineCheck({
  code: 'disclosure-not-in-wording',
  level: 'error',
  title: 'The words of the instructions lack what they are said to disclose',
  basis: 'Regulation (EU) 2017/745 Annex I 23.1(g) and 23.4(g)',
  explain:
    'A design output lists under `discloses` the statements by which users are told of residual risks, and names under `wording` the document that holds its words. A statement does not stand in that document word for word, the document is of another revision than the output, or it does not exist.\n\nThe list alone is a promise. What the user reads is the document, and a reviewer compares the two line by line. Line breaks and marks of Markdown make no difference; other words, numbers and punctuation do.\n\nPut the statement into the document, or correct the list so that it says what the document says, and have both approved.',
  examines: 'statements of residual risks with the document that holds them',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-output')
      .filter(
        (output) =>
          output.status !== 'retired' &&
          output.fields.wording !== undefined &&
          (output.fields.discloses ?? []).length > 0,
      ),
  judge: (output: Output, { graph }): readonly Draft[] => {
    const id = output.fields.wording ?? '';
    const document = graph.recordOf('document', id);
    // An unknown id, or one of another type, is the finding of another check.
    if (!document) return [];
    const related = [{ place: placeOf(document, 'id'), message: `the words of ${output.id}` }];
    const found = plainWords(proseOnly(document.body));
    const missing = (output.fields.discloses ?? []).flatMap((entry, index): readonly Draft[] =>
      found.includes(plainWords(entry.statement))
        ? []
        : [
            {
              place: placeOf(output, 'discloses', index, 'statement'),
              message: `${document.id} "${document.title}" does not hold the statement by which ${output.id} discloses ${entry.risk}`,
              hint: `Put the statement into ${document.id} word for word, or state here what stands there.`,
              records: [output.id, document.id, entry.risk],
              related,
            },
          ],
    );
    const { revision } = output.fields;
    const differs =
      revision !== undefined && revision !== document.fields.revision
        ? [
            {
              place: placeOf(output, 'revision'),
              message: `${output.id} is revision ${revision}, but ${document.id}, which holds its words, is revision ${document.fields.revision}`,
              hint: 'Bring both to the same revision.',
              records: [output.id, document.id],
              related: [{ place: placeOf(document, 'revision'), message: `revision of ${document.id}` }],
            },
          ]
        : [];
    return [...differs, ...missing];
  },
});

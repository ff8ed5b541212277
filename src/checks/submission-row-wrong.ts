import { nearestName } from '../records/nearest-name.ts';
import type { RecordOf } from '../records/record.ts';
import { placeOf } from '../records/record.ts';
import { meantClause } from '../regulation/meant-clause.ts';
import { entryPath } from '../submission/submission-rows.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

type Submission = RecordOf<'submission'>;

const judgeTable = (
  submission: Submission,
  index: number,
  { clauseTables }: CheckContext,
): readonly Draft[] => {
  const written = submission.fields.tables[index];
  if (!written) return [];
  const records = [submission.id];
  const table = clauseTables.inUse(written.table);
  if (!table) {
    const near = nearestName(written.table, clauseTables.keys);
    return [
      {
        place: placeOf(submission, 'tables', index, 'table'),
        message: `${submission.id} follows the table "${written.table}", which does not exist`,
        hint: near ? `Did you mean "${near}"?` : `Use one of: ${clauseTables.keys.join(', ')}.`,
        records,
      },
    ];
  }
  return written.rows.flatMap((row, at): readonly Draft[] => {
    const place = placeOf(submission, ...entryPath(index, at), 'clause');
    if (!table.byClause.has(row.clause)) {
      const known = [...table.byClause.keys()];
      const near = meantClause(row.clause, known) ?? nearestName(row.clause, known);
      return [
        {
          place,
          message: `${submission.id} has an entry for row ${row.clause}, which ${table.key} does not have`,
          hint: near ? `Did you mean "${near}"?` : 'Correct the number of the row.',
          records,
        },
      ];
    }
    if (written.rows.findIndex((each) => each.clause === row.clause) !== at)
      return [
        {
          place,
          message: `${submission.id} has two entries for row ${row.clause} of ${table.key}`,
          hint: 'Put what answers the row into one entry.',
          records,
        },
      ];
    const hasContent = (row.content ?? []).length > 0;
    if (hasContent === (row.empty !== undefined))
      return [
        {
          place,
          message: hasContent
            ? `${submission.id}: row ${row.clause} has content and a reason why it has none`
            : `${submission.id}: row ${row.clause} has neither "content" nor "empty"`,
          hint: hasContent ? 'Leave one of the two out.' : 'Add one of the two.',
          records,
        },
      ];
    return [];
  });
};

export const submissionRowWrong = defineCheck({
  code: 'submission-row-wrong',
  level: 'error',
  title: 'An entry of a submission fits no row of its table',
  basis: 'common practice, no source',
  explain:
    'A submission follows a table that does not exist, or has an entry for a row that its table does not have, or two for the same row, or one that both answers the row and says why nothing does, or neither. The index could not be drawn as it was meant, and a document would be missing from the folder without anybody noticing.\n\nA reviewer who does not find a document where the table of contents puts it takes it as not submitted.\n\nCorrect the entry. `plinth explain eu-mdr-annex-2` lists the rows of that table, and so for the others.',
  examines: 'tables of contents of submissions',
  subjects: ({ graph }) =>
    graph
      .recordsOf('submission')
      .filter((submission) => submission.status !== 'retired')
      .flatMap((submission) => submission.fields.tables.map((_, index) => ({ submission, index }))),
  judge: ({ submission, index }, context) => judgeTable(submission, index, context),
});

import { placeOf } from '../records/record.ts';
import { isFromMemory, rowsBelow } from '../regulation/clause-tables.ts';
import { meantClause } from '../regulation/meant-clause.ts';
import { missingBranches, submissionTables } from '../submission/submission-rows.ts';
import { type Draft, defineCheck } from './check.ts';

export const submissionRowMissing = defineCheck({
  code: 'submission-row-missing',
  level: 'error',
  title: 'A row of a submission has neither content nor a reason',
  basis:
    'Regulation (EU) 2017/745 Annex II and III (the documentation shall include what they list); common practice, no source, for other tables of contents',
  explain:
    'A submission follows a table of contents, and says nothing of one of its rows: no document, no record and no file answers it, and no reason is given why none does. An entry on a row holds for the rows below it, so that what belongs together can be said once.\n\nWhat is left out in silence comes back as a question, months later, and may stop the review until it is answered.\n\nAdd an entry with `content`, or with `empty` and the reason. In a submission that is not approved yet it is a warning, and for rows that are known from memory only it is never more.',
  examines: 'tables of contents of submissions',
  subjects: ({ graph, clauseTables }) =>
    graph
      .recordsOf('submission')
      .filter((submission) => submission.status !== 'retired')
      .flatMap((submission) =>
        submissionTables(submission, clauseTables).map((table) => ({ submission, table })),
      ),
  judge: ({ submission, table }): readonly Draft[] =>
    missingBranches(table).flatMap((row): readonly Draft[] => {
      // An entry that is spelt nearly like this row has a finding of its own.
      const entries = submission.fields.tables[table.index]?.rows ?? [];
      if (entries.some((entry) => meantClause(entry.clause, [row.clause]) !== undefined)) return [];
      const below = rowsBelow(table.table, row.clause).length;
      return [
        {
          place: placeOf(submission, 'tables', table.index, 'table'),
          message: `${submission.id} says nothing of row ${row.clause} of ${table.table.key}, ${row.title}${below > 0 ? `, and of the ${below} ${below === 1 ? 'row' : 'rows'} below it` : ''}`,
          hint: `Add an entry "clause: ${row.clause}" with "content", or with "empty" and the reason.`,
          records: [submission.id],
          ...(submission.status !== 'approved' || isFromMemory(row) ? { level: 'warning' as const } : {}),
          data: { table: table.table.key, clause: row.clause },
        },
      ];
    }),
});

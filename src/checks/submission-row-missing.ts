import { placeOf } from '../records/record.ts';
import { type ClauseRow, isFromMemory, rowsBelow } from '../regulation/clause-tables.ts';
import { meantClause } from '../regulation/meant-clause.ts';
import {
  entryPath,
  missingBranches,
  rowsPassedOver,
  submissionTables,
} from '../submission/submission-rows.ts';
import { type Draft, defineCheck } from './check.ts';

/** More rows than this in one message say less than their number. */
const most = 12;

export const submissionRowMissing = defineCheck({
  code: 'submission-row-missing',
  level: 'error',
  title: 'A row of a submission has neither content nor a reason',
  basis:
    'Regulation (EU) 2017/745 Annex II and III (the documentation shall include what they list); common practice, no source, for other tables of contents',
  explain:
    'A submission follows a table of contents, and says nothing of one of its rows: no document, no record and no file answers it, and no reason is given why none does. A reason on a row holds for all rows below it. Content on a row holds for the rows directly below it as long as none of them has content of its own; where some have, those beside them were passed over, and rows further down were not spoken of at all.\n\nWhat is left out in silence comes back as a question, months later, and may stop the review until it is answered.\n\nAdd an entry with `content`, or with `empty` and the reason. Rows below a row with content are listed in one finding, a warning: whether that content answers them is for people to say. In a submission that is not approved yet it is a warning, and for rows that are known from memory only it is never more.',
  examines: 'tables of contents of submissions',
  subjects: ({ graph, clauseTables }) =>
    graph
      .recordsOf('submission')
      .filter((submission) => submission.status !== 'retired')
      .flatMap((submission) =>
        submissionTables(submission, clauseTables).map((table) => ({ submission, table })),
      ),
  judge: ({ submission, table }): readonly Draft[] => {
    const entries = submission.fields.tables[table.index]?.rows ?? [];
    // An entry that is spelt nearly like this row has a finding of its own.
    const isMisspelt = (row: ClauseRow): boolean =>
      entries.some((entry) => meantClause(entry.clause, [row.clause]) !== undefined);
    return [
      ...missingBranches(table).flatMap((row): readonly Draft[] => {
        if (isMisspelt(row)) return [];
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
      ...rowsPassedOver(table).flatMap(({ above, rows }): readonly Draft[] => {
        const open = rows.filter((row) => !isMisspelt(row));
        if (open.length === 0) return [];
        const numbers = new Set(open.map((row) => row.clause));
        const tops = open.filter((row) => row.parent === undefined || !numbers.has(row.parent));
        const named = tops.slice(0, most).map((row) => row.clause);
        const rest = open.length - named.length;
        const at = entries.findIndex((entry) => entry.clause === above.clause);
        return [
          {
            place: placeOf(submission, ...entryPath(table.index, at), 'clause'),
            message: `${submission.id} gives content for row ${above.clause} of ${table.table.key} and says nothing of ${open.length === 1 ? 'row' : 'rows'} ${named.join(', ')}${rest > 0 ? ` and ${rest} more` : ''} below it`,
            hint: `Add an entry for ${open.length === 1 ? 'the row' : 'each of them, or for the row directly above several'}, with "content", or with "empty" and the reason.`,
            records: [submission.id],
            level: 'warning',
            data: { table: table.table.key, clause: above.clause, open: open.length },
          },
        ];
      }),
    ];
  },
});

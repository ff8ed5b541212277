import { type LegalRow, legalRows, placeOfRow } from '../graph/legal-rows.ts';
import type { ClauseTable } from '../regulation/clause-tables.ts';
import { rowKnowledge } from '../regulation/row-knowledge.ts';
import { defineCheck } from './check.ts';

/** A clause that only heads others is shown by them, once one of them that applies is in the file. */
const isShownByItsPoints = (
  { table, clause }: LegalRow,
  rows: readonly LegalRow[],
  clauses: ClauseTable | undefined,
): boolean =>
  rows.some(
    (other) =>
      other.record.status !== 'draft' &&
      other.applicable === true &&
      other.table === table &&
      clauses?.byClause.get(other.clause)?.parent === clause,
  );

export const requirementWithoutEvidence = defineCheck({
  code: 'requirement-without-evidence',
  level: 'error',
  title: 'An applicable clause has no evidence',
  basis: 'Regulation (EU) 2017/745 Annex II 4',
  explain:
    'The clause applies, and the record names nothing under `evidence`. The technical documentation must say for each requirement which document shows it, precisely enough to be found. A clause that only heads others is shown by them and needs no evidence of its own. Drafts are not judged. For a row that the tool knows from memory only it is a warning.\n\nA row without evidence is a requirement that nobody has shown to be met, and reviewers go through this table row by row.\n\nName the records that show it: a protocol, a validation, an analysis, a label, a document. If there is none, the work is still to be done.',
  examines: 'applicable clauses that are no drafts',
  subjects: ({ graph }) => {
    const rows = legalRows(graph);
    return rows
      .filter(({ applicable, record }) => applicable === true && record.status !== 'draft')
      .map((row) => ({ row, rows }));
  },
  judge: ({ row, rows }, { clauseTables }) => {
    const { clause, evidence, table, record } = row;
    const clauses = clauseTables.inUse(table);
    if (evidence.length > 0 || isShownByItsPoints(row, rows, clauses)) return [];
    const known = rowKnowledge(clauses, clause);
    const title = clauses?.byClause.get(clause)?.title ?? record.title;
    return [
      {
        place: placeOfRow(row, 'evidence', 'applicable'),
        message: `${record.id}: clause ${clause} "${title}"${known.words} applies, but has no evidence`,
        hint: 'Name the records that show it under "evidence".',
        records: [record.id],
        ...known.level,
        data: { clause },
      },
    ];
  },
});

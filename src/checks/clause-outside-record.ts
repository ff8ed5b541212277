import { legalRowsOf, placeOfRow } from '../graph/legal-rows.ts';
import { rowsBelow } from '../regulation/clause-tables.ts';
import { defineCheck } from './check.ts';

export const clauseOutsideRecord = defineCheck({
  code: 'clause-outside-record',
  level: 'warning',
  title: 'A row stands in the record of another clause',
  basis: 'common practice, no source',
  explain:
    'The record answers one clause, and its rows are meant to be the clauses below it. This row is a clause from elsewhere in the table.\n\nWho looks for the clause opens another record and finds nothing; who approves this one does not expect it there.\n\nMove the row to the record of the clause that heads it.',
  examines: 'rows of legal requirements',
  subjects: ({ graph }) =>
    graph
      .recordsOf('legal-requirement')
      .filter((record) => record.status !== 'retired')
      .flatMap((record) => legalRowsOf(record).slice(1)),
  judge: (row, { clauseTables }) => {
    const { record, clause, table } = row;
    const clauses = clauseTables.inUse(table);
    const head = record.fields.clause;
    if (!clauses?.byClause.has(clause) || !clauses.byClause.has(head)) return [];
    // The clause of the record once more is answered twice, which has a finding of its own.
    if (clause === head || rowsBelow(clauses, head).some((below) => below.clause === clause)) return [];
    return [
      {
        place: placeOfRow(row, 'clause'),
        message: `${record.id} answers clause ${head}; clause ${clause} does not stand below it`,
        hint: `Move the row to the record of the clause that heads ${clause}.`,
        records: [record.id],
        data: { clause },
      },
    ];
  },
});

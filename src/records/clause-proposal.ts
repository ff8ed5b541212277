import { type ClauseRow, type ClauseTable, isFromMemory } from '../regulation/clause-tables.ts';

/** A legal requirement to be written: a clause and what stands below it, nothing of it decided. */
export interface ClauseProposal {
  readonly id: string;
  readonly head: ClauseRow;
  readonly below: readonly ClauseRow[];
}

/** Id of the record that answers a clause: `GR-10` in Annex I, `GR-13485-7.3.2` in another table. */
export const requirementId = (table: ClauseTable, clause: string): string => {
  const plain = clause.replace(/[^A-Za-z0-9.]+/g, '-').replace(/^[-.]+|[-.]+$/g, '');
  return `GR-${table.short === '' ? '' : `${table.short}-`}${plain}`;
};

/** Open clauses gathered under those of them that stand highest, so that each becomes one record. */
export const clauseProposals = (
  table: ClauseTable,
  open: readonly ClauseRow[],
): readonly ClauseProposal[] => {
  const isOpen = new Set(open.map((row) => row.clause));
  const headOf = (row: ClauseRow): ClauseRow => {
    let head = row;
    for (let steps = 0; head.parent !== undefined && steps < table.rows.length; steps += 1) {
      const above = table.byClause.get(head.parent);
      if (!above || !isOpen.has(above.clause)) break;
      head = above;
    }
    return head;
  };
  const below = new Map<ClauseRow, ClauseRow[]>();
  for (const row of open) {
    const head = headOf(row);
    const rows = below.get(head) ?? [];
    if (row !== head) rows.push(row);
    below.set(head, rows);
  }
  return [...below].map(([head, rows]) => ({ id: requirementId(table, head.clause), head, below: rows }));
};

const about = (row: ClauseRow, indent: string): string =>
  [
    `${row.title}${isFromMemory(row) ? ' (from memory: compare with the text)' : ''}`,
    ...(row.note === undefined ? [] : [`Note: ${row.note}`]),
  ]
    .map((line) => `${indent}# ${line.replace(/\s+/g, ' ')}\n`)
    .join('');

/** The record as text. What each clause is about stands beside it as a comment; what it asks is in the law or standard. */
export const proposalText = ({ id, head, below }: ClauseProposal, table: ClauseTable): string =>
  `---
id: ${id}
type: legal-requirement
title: ${JSON.stringify(head.title)}
status: draft
table: ${table.key}
clause: ${JSON.stringify(head.clause)}
# A proposal, taken from the edition of ${table.edition}. Read each clause in the text in force and decide:
#   applicable: true, with solution, method, standards and evidence; or applicable: false, with a reason.
applicable: to decide
${
  below.length === 0
    ? ''
    : `clauses:\n${below
        .map(
          (row) =>
            `${about(row, '  ')}  - clause: ${JSON.stringify(row.clause)}\n    applicable: to decide\n`,
        )
        .join('')}`
}---
`;

import { type ClauseTable, isFromMemory } from './clause-tables.ts';

/** How a finding on a clause tells that its row is known from memory only: the words behind its number, and the level. */
export const rowKnowledge = (
  table: ClauseTable | undefined,
  clause: string,
): { readonly words: string; readonly level: { readonly level?: 'warning' } } => {
  const row = table?.byClause.get(clause);
  return row && isFromMemory(row)
    ? { words: ' (from memory)', level: { level: 'warning' } }
    : { words: '', level: {} };
};

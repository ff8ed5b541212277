import { applicabilityWords, isDecided, legalRows, placeOfRow } from '../graph/legal-rows.ts';
import { rowKnowledge } from '../regulation/row-knowledge.ts';
import { defineCheck } from './check.ts';

export const applicabilityNotConfirmed = defineCheck({
  code: 'applicability-not-confirmed',
  level: 'warning',
  title: 'Whether a clause applies was proposed, and no person has decided',
  basis: 'Regulation (EU) 2017/745 Annex II 4',
  explain:
    'The row holds a proposal (`proposed yes`, `proposed no`) or `to decide` in place of a decision. A proposal comes from a list for a kind of device and knows nothing of this one. In a record that is approved it is an error: somebody signed what nobody had decided (a warning still, where the tool knows the row from memory only).\n\nA clause set aside by a list may be the one that protects the patient, and a reviewer asks who decided it and why.\n\nRead the clause itself, decide, and write `true` or `false` under `applicable`, with the reason where it does not apply.',
  examines: 'clauses that legal requirements answer',
  subjects: ({ graph }) => legalRows(graph),
  judge: (row, { clauseTables }) => {
    if (isDecided(row)) return [];
    const { record, clause, table, applicable } = row;
    const known = rowKnowledge(clauseTables.inUse(table), clause);
    const title = clauseTables.inUse(table)?.byClause.get(clause)?.title ?? record.title;
    return [
      {
        place: placeOfRow(row, 'applicable'),
        message: `${record.id}: whether clause ${clause} "${title}"${known.words} applies is ${applicabilityWords(applicable)}`,
        hint: 'Read the clause, decide, and write true or false, with the reason where it does not apply.',
        records: [record.id],
        ...(record.status === 'approved' && known.level.level === undefined
          ? { level: 'error' as const }
          : {}),
        data: { clause, applicable: String(applicable) },
      },
    ];
  },
});

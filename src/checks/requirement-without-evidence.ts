import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { clauseTable } from '../regulation/clause-tables.ts';
import { defineCheck } from './check.ts';

/** A clause that only heads others is shown by them, once one of them that applies is in the file. */
const isShownByItsPoints = (requirement: RecordOf<'legal-requirement'>, graph: TraceGraph): boolean => {
  const { table, clause } = requirement.fields;
  return graph.recordsOf('legal-requirement').some((other) => {
    if (['retired', 'draft'].includes(other.status) || !other.fields.applicable) return false;
    if (other.fields.table !== table) return false;
    return clauseTable(table)?.byClause.get(other.fields.clause)?.parent === clause;
  });
};

export const requirementWithoutEvidence = defineCheck({
  code: 'requirement-without-evidence',
  level: 'error',
  title: 'An applicable clause has no evidence',
  basis: 'Regulation (EU) 2017/745 Annex II 4',
  explain:
    'The clause applies, and the record names nothing under `evidence`. The technical documentation must say for each requirement which document shows it, precisely enough to be found. A clause that only heads others is shown by them and needs no evidence of its own. Drafts are not judged.\n\nA row without evidence is a requirement that nobody has shown to be met, and reviewers go through this table row by row.\n\nName the records that show it: a protocol, a validation, an analysis, a label, a document. If there is none, the work is still to be done.',
  examines: 'applicable clauses that are no drafts',
  subjects: ({ graph }) =>
    graph
      .recordsOf('legal-requirement')
      .filter(({ status, fields }) => fields.applicable && status !== 'retired' && status !== 'draft'),
  judge: (requirement, { graph }) => {
    const { clause, evidence, table } = requirement.fields;
    if ((evidence ?? []).length > 0 || isShownByItsPoints(requirement, graph)) return [];
    const title = clauseTable(table)?.byClause.get(clause)?.title ?? requirement.title;
    return [
      {
        place: placeOf(requirement, evidence ? 'evidence' : 'applicable'),
        message: `${requirement.id}: clause ${clause} "${title}" applies, but has no evidence`,
        hint: 'Name the records that show it under "evidence".',
        records: [requirement.id],
        data: { clause },
      },
    ];
  },
});

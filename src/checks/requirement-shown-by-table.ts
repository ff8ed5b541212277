import { legalRows, placeOfRow } from '../graph/legal-rows.ts';
import { isOfType, type TechnicalRecord } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Names of the views that a document draws. */
const views = /^```plinth ([a-z-]{1,40})/gm;

/** Views that tell of clauses, class and documents, and of nothing that was measured, decided or drawn. */
const clauseViews: ReadonlySet<string> = new Set([
  'legal-requirements',
  'records',
  'standards',
  'file-index',
]);

/** Whether a document is a table of requirements: it draws how clauses are answered, and no evidence. */
const isTableOfRequirements = (record: TechnicalRecord): boolean => {
  if (!isOfType(record, 'document')) return false;
  const drawn = [...record.body.matchAll(views)].map((match) => match[1] ?? '');
  return drawn.includes('legal-requirements') && drawn.every((view) => clauseViews.has(view));
};

export const requirementShownByTable = defineCheck({
  code: 'requirement-shown-by-table',
  level: 'warning',
  title: 'An applicable clause names only answers to clauses as evidence',
  basis: 'Regulation (EU) 2017/745 Annex II 4(d)',
  explain:
    'Everything that the row names as evidence is a legal requirement, the row itself perhaps, or a document that is the table of requirements. Such an answer says where evidence is; it is none.\n\nThe table leads a reviewer from the clause to the document that shows it. A row that leads back into the table leads nowhere.\n\nName the record or the document that shows that the clause is met. Where another clause has the same evidence, name that evidence here too.',
  examines: 'applicable clauses with evidence',
  subjects: ({ graph }) =>
    legalRows(graph).filter(({ applicable, evidence }) => applicable === true && evidence.length > 0),
  judge: (row, { graph }) => {
    const named = row.evidence.flatMap(({ record }) => graph.record(record) ?? []);
    const isAnswer = (record: TechnicalRecord): boolean =>
      record.type === 'legal-requirement' || isTableOfRequirements(record);
    if (named.length < row.evidence.length || !named.every(isAnswer)) return [];
    return [
      {
        place: placeOfRow(row, 'evidence'),
        message: `${row.record.id}: clause ${row.clause} names only answers to clauses as evidence: ${named.map(({ id }) => id).join(', ')}`,
        hint: 'Name the record or the document that shows it.',
        records: [row.record.id],
        data: { clause: row.clause },
      },
    ];
  },
});

import { legalRows, placeOfRow } from '../graph/legal-rows.ts';
import { defineCheck } from './check.ts';

/** Records that say what shall be done or be met, and nothing of what came out. */
const plans: ReadonlySet<string> = new Set([
  'verification-protocol',
  'validation-protocol',
  'test-method',
  'standard',
  'user-need',
  'design-input',
]);

export const requirementShownByPlans = defineCheck({
  code: 'requirement-shown-by-plans',
  level: 'warning',
  title: 'An applicable clause names only plans as evidence',
  basis: 'Regulation (EU) 2017/745 Annex II 4(d)',
  explain:
    'Everything that the row names as evidence says what shall be done or met: protocols, test methods, standards, needs, design inputs. None of it says what came out.\n\nA protocol without its record shows an intention. A standard is what was applied, and belongs under `standards`.\n\nName the record of the result, the drawing, the label or the report that shows it.',
  examines: 'applicable clauses with evidence',
  subjects: ({ graph }) =>
    legalRows(graph).filter(({ applicable, evidence }) => applicable === true && evidence.length > 0),
  judge: (row, { graph }) => {
    const named = row.evidence.flatMap(({ record }) => graph.record(record) ?? []);
    if (named.length < row.evidence.length || named.some((record) => !plans.has(record.type))) return [];
    return [
      {
        place: placeOfRow(row, 'evidence'),
        message: `${row.record.id}: clause ${row.clause} names only plans as evidence: ${named.map(({ id }) => id).join(', ')}`,
        hint: 'Name the record of the result, or the output that shows it.',
        records: [row.record.id],
        data: { clause: row.clause },
      },
    ];
  },
});

import { legalRows } from '../graph/legal-rows.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const standardExtentDiffers = defineCheck({
  code: 'standard-extent-differs',
  level: 'warning',
  title: 'A clause relies on more of a standard than the list of standards says is applied',
  basis: 'Regulation (EU) 2017/745 Annex II 4(c)',
  explain:
    'The row says that a standard was applied in full, and the record of the standard says in part; or the row says in part and does not name the clauses.\n\nConformity may be presumed only as far as a standard was applied. A table that claims all of it where a part was done promises tests that do not exist.\n\nName the clauses that were applied, here and in the record of the standard, or apply the rest.',
  examines: 'standards applied for clauses',
  subjects: ({ graph }) =>
    legalRows(graph).flatMap((row) => row.standards.map((applied, index) => ({ row, applied, index }))),
  judge: ({ row, applied, index }, { graph }): readonly Draft[] => {
    const { record, clause } = row;
    const standard = graph.recordOf('standard', applied.standard);
    const place = placeOf(record, ...row.path, 'standards', index);
    if (applied.extent === 'part' && (applied.clauses ?? '').trim() === '')
      return [
        {
          place,
          message: `${record.id}: clause ${clause} applies ${applied.standard} in part, and does not say which part`,
          hint: 'Name the clauses of the standard under "clauses".',
          records: [record.id, applied.standard],
          data: { clause, standard: applied.standard },
        },
      ];
    if (!standard || (applied.extent ?? 'full') !== 'full' || standard.fields.extent !== 'part') return [];
    return [
      {
        place,
        message: `${record.id}: clause ${clause} applies ${applied.standard} ${applied.extent === 'full' ? 'in full' : 'without a limit'}, but ${applied.standard} lists ${standard.fields.designation} as applied in part`,
        hint: 'Write "extent: part" with the clauses, or correct the record of the standard.',
        records: [record.id, applied.standard],
        related: [{ place: placeOf(standard, 'extent'), message: `${standard.id}: in part` }],
        data: { clause, standard: applied.standard },
      },
    ];
  },
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const supersededStandardUnanalysed = defineCheck({
  code: 'superseded-standard-unanalysed',
  level: 'error',
  title: 'A standard was superseded and nobody has analysed what that means',
  basis:
    'ISO 13485:2016 4.2.4 (control of external documents); Regulation (EU) 2017/745 Annex I 1 (state of the art)',
  explain:
    'The record of the standard names a newer edition under `superseded_by`, and there is no `gap_analysis`. Until the end of a transition that is set it is a warning, after that, or where none is set, an error.\n\nTests to an older edition may still show what is needed; that is for people to say who have both texts. Without it, "superseded standard, no gap analysis" is among the questions that come back most often.\n\nCompare the clauses that were applied, name the records whose work followed the older edition, and write down under `gap_analysis` what follows.',
  examines: 'standards with a newer edition',
  subjects: ({ graph }) =>
    graph
      .recordsOf('standard')
      .filter((standard) => standard.status !== 'retired' && standard.fields.superseded_by !== undefined),
  judge: (standard, { asOf }) => {
    const { superseded_by: newer, gap_analysis: analysis, designation, edition } = standard.fields;
    if (!newer || analysis) return [];
    const until = newer.transition_until;
    const isOpen = until !== undefined && until >= asOf;
    return [
      {
        place: placeOf(standard, 'superseded_by'),
        message: `${standard.id}: ${designation}:${edition} was superseded by the edition ${newer.edition} of ${newer.published}${until === undefined ? '' : `, with a transition until ${until}`}, and there is no gap analysis`,
        hint: 'Compare the clauses applied and add "gap_analysis" with date, role, differences, affected records and conclusion.',
        records: [standard.id],
        ...(isOpen ? { level: 'warning' as const } : {}),
        data: { edition: newer.edition },
      },
    ];
  },
});

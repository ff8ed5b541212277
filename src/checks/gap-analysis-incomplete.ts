import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

type Standard = RecordOf<'standard'>;
type Analysis = NonNullable<Standard['fields']['gap_analysis']>;

const faultsOf = (
  { fields }: Standard,
  analysis: Analysis,
  asOf: string,
): readonly {
  readonly path: readonly (string | number)[];
  readonly message: string;
  readonly hint: string;
}[] => [
  ...(fields.superseded_by && analysis.date < fields.superseded_by.published
    ? [
        {
          path: ['date'],
          message: `is of ${analysis.date}, before the new edition was published on ${fields.superseded_by.published}`,
          hint: 'Analyse the edition as published; a draft may have changed.',
        },
      ]
    : []),
  ...(fields.superseded_by
    ? []
    : [
        {
          path: [],
          message: 'is there, and nothing says which edition it compares with',
          hint: 'Add "superseded_by" with the edition and its day.',
        },
      ]),
  ...(analysis.conclusion === 'work needed' && (analysis.actions ?? []).length === 0
    ? [
        {
          path: ['conclusion'],
          message: 'finds that work is needed, and names no action',
          hint: 'Add "actions" with what is to be done and by when.',
        },
      ]
    : []),
  ...(fields.superseded_by &&
  analysis.conclusion === 'new edition adopted' &&
  (analysis.actions ?? []).every(({ done }) => done !== undefined)
    ? [
        {
          path: ['conclusion'],
          message: `says that the new edition ${fields.superseded_by.edition} is adopted, and the record still lists the edition ${fields.edition}`,
          hint: 'List the new edition in a record of its own and retire this one, or name under "actions" what is still to be done.',
        },
      ]
    : []),
  ...(analysis.actions ?? []).flatMap(({ action, due, done }, index) =>
    done === undefined && due < asOf
      ? [
          {
            path: ['actions', index, 'due'],
            message: `has the action "${action}", due on ${due} and open on ${asOf}`,
            hint: 'Add "done" with the day, or agree on a new day.',
          },
        ]
      : [],
  ),
];

export const gapAnalysisIncomplete = defineCheck({
  code: 'gap-analysis-incomplete',
  level: 'warning',
  title: 'The gap analysis of a standard does not hold together',
  basis: 'ISO 13485:2016 4.2.4 (control of external documents)',
  explain:
    'A gap analysis was made before the edition that it is about was published, does not say which edition that is, finds that work is needed without naming it, has an action whose day has passed, or says that the new edition is adopted while the record still lists the older one.\n\nSuch an analysis looks like an answer and leaves open what it was made for.\n\nComplete it, or make it again on the text as published.',
  examines: 'gap analyses',
  subjects: ({ graph }) =>
    graph
      .recordsOf('standard')
      .filter((standard) => standard.status !== 'retired' && standard.fields.gap_analysis !== undefined),
  judge: (standard, { asOf }): readonly Draft[] => {
    const analysis = standard.fields.gap_analysis;
    if (!analysis) return [];
    return faultsOf(standard, analysis, asOf).map(({ path, message, hint }) => ({
      place: placeOf(standard, 'gap_analysis', ...path),
      message: `${standard.id}: the gap analysis ${message}`,
      hint,
      records: [standard.id],
    }));
  },
});

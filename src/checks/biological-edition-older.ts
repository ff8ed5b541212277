import { evaluations } from '../evidence/biological-contact.ts';
import { placeOf } from '../records/record.ts';
import { isYearOf } from '../records/standard-mentions.ts';
import { type Draft, defineCheck } from './check.ts';

export const biologicalEditionOlder = defineCheck({
  code: 'biological-edition-older',
  level: 'warning',
  title: 'A biological evaluation or a report follows another edition than the list of standards',
  basis:
    'Regulation (EU) 2017/745 Annex I 1 (state of the art) and Annex II 4(c); a note on the gap is common practice, no source',
  explain:
    'The evaluation states an edition, or a laboratory report names a standard and an edition, and the list of standards of the file has another edition; no `gap` says what the difference means.\n\nEditions change what has to be tested and how contact times are counted. A superseded edition without an analysis of the gap is a usual question of reviewers.\n\nCompare the editions. Write under `gap` what the difference means for the result, repeat what does not hold, or correct the list of standards.',
  examines: 'editions of evaluations and of their reports',
  subjects: ({ graph }) =>
    evaluations(graph).flatMap((evaluation) => [
      { evaluation, index: undefined },
      ...evaluation.fields.endpoints.flatMap(({ report }, index) =>
        report?.standard !== undefined && report.edition !== undefined ? [{ evaluation, index }] : [],
      ),
    ]),
  judge: ({ evaluation, index }, { graph }): readonly Draft[] => {
    if (index === undefined) {
      const standard = graph.recordOf('standard', evaluation.fields.follows);
      if (!standard || isYearOf(evaluation.fields.edition, standard.fields.edition)) return [];
      return [
        {
          place: placeOf(evaluation, 'edition'),
          message: `${evaluation.id} was done to the edition ${evaluation.fields.edition} of ${standard.fields.designation}, the list of standards has ${standard.fields.edition} (${standard.id})`,
          hint: 'Evaluate to the edition of the list, or correct the list.',
          records: [evaluation.id, standard.id],
          related: [{ place: placeOf(standard, 'edition'), message: `the edition of ${standard.id}` }],
        },
      ];
    }
    const report = evaluation.fields.endpoints[index]?.report;
    if (!report || report.gap !== undefined) return [];
    const standard = graph
      .recordsOf('standard')
      .find(({ status, fields }) => status !== 'retired' && fields.designation === report.standard);
    if (!standard || report.edition === undefined || isYearOf(report.edition, standard.fields.edition))
      return [];
    return [
      {
        place: placeOf(evaluation, 'endpoints', index, 'report', 'edition'),
        message: `${evaluation.id}: the report ${report.number} follows ${report.standard}:${report.edition}, the list of standards has ${standard.fields.edition} (${standard.id}), and no gap is described`,
        hint: 'Write under "gap" what the difference means for the result.',
        records: [evaluation.id, standard.id],
        related: [{ place: placeOf(standard, 'edition'), message: `the edition of ${standard.id}` }],
      },
    ];
  },
});

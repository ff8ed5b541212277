import { placeOf } from '../records/record.ts';
import { conformityRoute } from '../regulation/classification-rules.ts';
import { type Draft, defineCheck } from './check.ts';

export const conformityRouteDiffers = defineCheck({
  code: 'conformity-route-differs',
  level: 'warning',
  title: 'The conformity assessment chosen does not fit the class',
  basis: 'Regulation (EU) 2017/745 Article 52(3), (4), (6) and (7)',
  explain:
    'Article 52 offers certain procedures to each class. The record names another paragraph, another procedure, or another part of a notified body. Custom-made and investigational devices and the additional procedures of paragraphs 8 to 11 are not looked at.\n\nA declaration that rests on the wrong procedure is not valid, however good the file.\n\nRead the paragraph of Article 52 that the hint names, and correct the route or the class. The choice is for qualified people.',
  examines: 'classifications',
  subjects: ({ graph }) => graph.recordsOf('classification').filter((record) => record.status !== 'retired'),
  judge: (record): readonly Draft[] => {
    const { class: deviceClass, features = [], route } = record.fields;
    const offered = conformityRoute(deviceClass, features.length > 0);
    if (!offered) return [];
    const what = `class ${deviceClass}${deviceClass === 'I' && features.length > 0 ? ` (${features.join(', ')})` : ''}`;
    const draft = (field: string, stated: string, expected: string): Draft => ({
      place: placeOf(record, 'route', field),
      message: `${record.id}: ${what} with ${stated}; Article ${offered.article} has ${expected}`,
      hint: `Read Article ${offered.article} and correct the route or the class.`,
      records: [record.id],
      data: { field, class: deviceClass },
    });
    const article = route.article.replace(/^Art(?:icle|\.)? ?/i, '').replaceAll(' ', '');
    return [
      ...(article === offered.article
        ? []
        : [draft('article', `Article ${route.article}`, `the procedures for class ${deviceClass}`)]),
      ...(offered.procedures.includes(route.procedure)
        ? []
        : [draft('procedure', `the procedure "${route.procedure}"`, offered.procedures.join('; or '))]),
      ...(route.notified_body === offered.notified_body
        ? []
        : [
            draft(
              'notified_body',
              `the part of a notified body "${route.notified_body}"`,
              `"${offered.notified_body}"`,
            ),
          ]),
    ];
  },
});

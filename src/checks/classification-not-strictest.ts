import { placeOf, type RecordOf } from '../records/record.ts';
import { classRank } from '../regulation/classification-rules.ts';
import { type Draft, defineCheck } from './check.ts';

type Rule = RecordOf<'classification'>['fields']['rules'][number];

export const classificationNotStrictest = defineCheck({
  code: 'classification-not-strictest',
  level: 'error',
  title: 'The class is not that of the strictest rule that applies',
  basis: 'Regulation (EU) 2017/745 Annex VIII 3.5',
  explain:
    'Where several rules apply, the strictest one decides. Here the rule relied on does not apply, is not among the rules considered, or gives another class than the record states; or a stricter rule applies as well.\n\nA device in too low a class goes to the market without the assessment that its risk asks for.\n\nRely on the strictest of the rules that apply. Which rules apply is for qualified people to decide; this check only compares what they wrote.',
  examines: 'classifications',
  subjects: ({ graph }) => graph.recordsOf('classification').filter((record) => record.status !== 'retired'),
  judge: (record): readonly Draft[] => {
    const { rules, relied_on: reliedOn, class: stated } = record.fields;
    const draft = (path: string, message: string, hint: string): Draft => ({
      place: placeOf(record, path),
      message: `${record.id} ${message}`,
      hint,
      records: [record.id],
    });
    const relied = rules.filter((rule) => rule.rule === reliedOn);
    if (relied.length === 0)
      return [
        draft(
          'relied_on',
          `relies on rule ${reliedOn}, which is not among the rules considered`,
          'Add the rule under "rules" with its answer, or correct the number.',
        ),
      ];
    const applying = rules.filter((rule) => rule.applies === true && rule.class !== undefined);
    if (!relied.some((rule) => rule.applies === true))
      return [
        draft(
          'relied_on',
          `relies on rule ${reliedOn}, of which it says that it ${relied[0]?.applies === false ? 'does not apply' : 'is not decided'}`,
          'Rely on the strictest of the rules that apply.',
        ),
      ];
    const rank = (rule: Rule): number => (rule.class === undefined ? -1 : classRank(rule.class));
    const strictest = [...applying].sort((a, b) => rank(b) - rank(a))[0];
    if (!strictest?.class) return [];
    if (rank(strictest) > classRank(stated))
      return [
        draft(
          'class',
          `states class ${stated}, but rule ${strictest.rule}, which applies, gives class ${strictest.class}`,
          'The strictest rule that applies decides (Annex VIII 3.5).',
        ),
      ];
    const best = Math.max(...relied.map(rank));
    if (best < classRank(stated) || best < rank(strictest))
      return [
        draft(
          'relied_on',
          `states class ${stated} and relies on rule ${reliedOn}, which gives class ${relied[0]?.class ?? 'not stated'}`,
          'Name the rule that gives the class, or correct the class.',
        ),
      ];
    return [];
  },
});

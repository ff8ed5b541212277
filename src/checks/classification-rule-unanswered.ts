import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const classificationRuleUnanswered = defineCheck({
  code: 'classification-rule-unanswered',
  level: 'warning',
  title: 'A candidate rule of the classification has no answer',
  basis: 'Regulation (EU) 2017/745 Annex VIII 3.5',
  explain:
    'The record names a rule that could apply, and does not say whether it does, or not why; or it applies and the class that it gives is missing. In an approved record it is an error.\n\nThe strictest of the rules that apply decides. A rule that was left open may be that one.\n\nDecide on the rule, write down by which property of the device, and name the class that it gives.',
  examines: 'candidate rules',
  subjects: ({ graph }) =>
    graph
      .recordsOf('classification')
      .filter((record) => record.status !== 'retired')
      .flatMap((record) => record.fields.rules.map((rule, index) => ({ record, rule, index }))),
  judge: ({ record, rule, index }): readonly Draft[] => {
    const lacks =
      rule.applies === 'to decide'
        ? 'is not decided'
        : (rule.answer ?? '').trim() === ''
          ? `${rule.applies ? 'applies' : 'does not apply'}, and nothing says why`
          : rule.applies && rule.class === undefined
            ? 'applies, and the class that it gives is missing'
            : undefined;
    if (lacks === undefined) return [];
    return [
      {
        place: placeOf(record, 'rules', index, 'applies'),
        message: `${record.id}: rule ${rule.rule} ${lacks}`,
        hint: 'Write "applies", the reason under "answer", and the class where it applies.',
        records: [record.id],
        ...(record.status === 'approved' ? { level: 'error' as const } : {}),
        data: { rule: rule.rule },
      },
    ];
  },
});

import { placeOf } from '../records/record.ts';
import { classificationRules } from '../regulation/classification-rules.ts';
import { type Draft, defineCheck } from './check.ts';

export const classificationRuleUnknown = defineCheck({
  code: 'classification-rule-unknown',
  level: 'error',
  title: 'A classification rule does not exist, stands twice, or cannot give the class',
  basis: 'Regulation (EU) 2017/745 Annex VIII chapter III',
  explain:
    'Annex VIII has the rules 1 to 22, and each of them gives certain classes only. The record names another number, answers one rule twice, or reads a class that the rule cannot give.\n\nA classification that does not follow from the rule it cites is the first thing that a notified body sends back.\n\nCorrect the number or the class; read the rule itself.',
  examines: 'candidate rules',
  subjects: ({ graph }) =>
    graph
      .recordsOf('classification')
      .filter((record) => record.status !== 'retired')
      .flatMap((record) => record.fields.rules.map((rule, index) => ({ record, rule, index }))),
  judge: ({ record, rule, index }): readonly Draft[] => {
    const known = classificationRules.get(rule.rule);
    if (!known)
      return [
        {
          place: placeOf(record, 'rules', index, 'rule'),
          message: `${record.id} names the rule ${rule.rule}; Annex VIII has the rules 1 to ${classificationRules.size}`,
          hint: 'Correct the number.',
          records: [record.id],
          data: { rule: rule.rule },
        },
      ];
    if (record.fields.rules.findIndex((each) => each.rule === rule.rule) !== index)
      return [
        {
          place: placeOf(record, 'rules', index, 'rule'),
          message: `${record.id} answers rule ${rule.rule} twice`,
          hint: 'Keep one of the two answers, or correct the number.',
          records: [record.id],
          data: { rule: rule.rule },
        },
      ];
    if (rule.class === undefined || known.classes.includes(rule.class)) return [];
    return [
      {
        place: placeOf(record, 'rules', index, 'class'),
        message: `${record.id} reads class ${rule.class} from rule ${rule.rule}, which gives ${known.classes.join(', ')}`,
        hint: `Read rule ${rule.rule} in section ${known.section} of Annex VIII.`,
        records: [record.id],
        data: { rule: rule.rule, class: rule.class },
      },
    ];
  },
});

import { countedRisks, wasLookedAtAgain } from '../evidence/counted-risks.ts';
import type { SeriesPart } from '../evidence/field-experience.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const surveillanceThresholdReached = defineCheck({
  code: 'surveillance-threshold-reached',
  level: 'error',
  title: 'A threshold of the surveillance plan was reached, and nobody has looked at the risk again',
  basis:
    'Regulation (EU) 2017/745 Annex III 1.1(b) (threshold values for the reassessment of benefit and risk)',
  explain:
    'The surveillance plan says from how many events, or from what rate, a risk is looked at again. A period of the field data has reached it, and the record does not list the risk among those that were looked at again.\n\nA threshold that is passed in silence is no threshold.\n\nLook at the risk: estimate, controls, acceptability. Write the conclusion under the heading Assessment and list the risk under `assessed.risks`.',
  examines: 'counts of events, each of one risk',
  subjects: (context) => countedRisks(context).flatMap(({ parts }) => parts),
  judge: (part: SeriesPart): readonly Draft[] => {
    const { record, counted, reached } = part;
    const [first, ...more] = reached;
    if (!first || wasLookedAtAgain(part)) return [];
    return [
      {
        place: placeOf(record, 'data', 'columns', counted.index, 'risk'),
        message: `${record.id}: ${counted.risk.id} reached a threshold in ${first.period} (${first.words})${more.length > 0 ? ` and in ${more.length} more ${more.length === 1 ? 'period' : 'periods'}` : ''}, and was not looked at again`,
        hint: `Look at ${counted.risk.id} again, write the conclusion, and list it under "assessed".`,
        records: [counted.risk.id, record.id],
      },
    ];
  },
});

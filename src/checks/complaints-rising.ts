import { countedRisks, wasLookedAtAgain } from '../evidence/counted-risks.ts';
import type { FieldSeries } from '../evidence/field-experience.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/** With a constant rate, a p below this comes up by chance once in a hundred columns. */
const level = 0.01;

export const complaintsRising = defineCheck({
  code: 'complaints-rising',
  level: 'warning',
  title: 'Events of a risk become more frequent',
  basis:
    'Regulation (EU) 2017/745 Article 88 (trend reporting) and Annex III 1.1(b) (methods for trends); the level of 0.01 is common practice, no source',
  explain:
    'From period to period the events of a risk become more frequent for the uses there were: with a constant rate so high a share in the later periods would come up in fewer than one of a hundred cases. The test is exact, given the total, and knows of the uses in each period.\n\nA rising rate can mean wear of a tool, another supplier, another group of users, or only better reporting. The mean over all periods hides it. Records that go on counting the same are taken together.\n\nFind the cause. Write it under the heading Assessment, list the risk under `assessed.risks`, and decide whether the trend must be reported to an authority (Article 88).',
  examines: 'counts of events over three periods or more',
  subjects: (context) => countedRisks(context).filter(({ trend }) => trend !== undefined),
  judge: ({ trend, risk, periods, parts, last }: FieldSeries): readonly Draft[] => {
    if (!trend || trend.pValue >= level || wasLookedAtAgain(last)) return [];
    const ids = parts.map(({ record }) => record.id);
    const shown = trend.pValue < 0.0001 ? 'below 0.0001' : trend.pValue.toPrecision(2);
    return [
      {
        place: placeOf(last.record, 'data', 'columns', last.counted.index, 'column'),
        message: `${ids.join(', ')}: events of ${risk.id} become more frequent over ${periods.length} periods (${periods.map((each) => each.events).join(', ')}; p ${shown})`,
        hint: `Find the cause, write it under Assessment, and list ${risk.id} under "assessed".`,
        records: [risk.id, ...ids],
      },
    ];
  },
});

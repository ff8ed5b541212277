import { monthsLater } from '../records/calendar.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Months beyond the interval that collecting and assessing may take (common practice, no source). */
const grace = 2;

export const surveillanceOverdue = defineCheck({
  code: 'surveillance-overdue',
  level: 'warning',
  title: 'A look at field data is overdue',
  basis:
    'Regulation (EU) 2017/745 Article 83(2) (actively and systematically); intervals of the surveillance plan',
  explain:
    'The surveillance plan names an interval, the last field data of the device ended longer ago than that (two months are left for collecting and assessing), and no newer ones are there.\n\nRates that nobody looks at cannot reach a threshold.\n\nAdd the field data of the time since, or correct the interval where there are grounds for a longer one.',
  examines: 'surveillance plans of devices with field data of their own',
  subjects: ({ graph }) =>
    graph
      .recordsOf('surveillance-plan')
      .filter((plan) => plan.status !== 'retired')
      .flatMap((plan) => {
        const ends = graph
          .sources(plan.id, 'plan', 'field-data')
          .filter((record) => record.status !== 'retired' && record.fields.device.which === 'own')
          .map((record) => record.fields.period.to)
          .sort();
        const last = ends.at(-1);
        const intervals = plan.fields.sources.flatMap((source) => source.interval_months ?? []);
        return last === undefined || intervals.length === 0
          ? []
          : [{ plan, last, interval: Math.min(...intervals) }];
      }),
  judge: ({ plan, last, interval }, { asOf }) => {
    const due = monthsLater(last, interval + grace);
    return asOf <= due
      ? []
      : [
          {
            place: placeOf(plan, 'sources'),
            message: `${plan.id} is looked at every ${interval} months, but its last field data ended on ${last}; the next were due by ${due}`,
            hint: 'Add a record of the field data since then.',
            records: [plan.id],
          },
        ];
  },
});

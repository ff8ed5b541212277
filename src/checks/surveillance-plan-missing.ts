import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const surveillancePlanMissing = defineCheck({
  code: 'surveillance-plan-missing',
  level: 'note',
  title: 'There are approved risks and no surveillance plan',
  basis: 'Regulation (EU) 2017/745 Articles 83 and 84, Annex III; ISO 14971:2019 4.4 and 9 (from memory)',
  explain:
    'The risks rest on estimates, and nothing says how experience with the device will come back to them. Before release it must be clear how information is collected and from what point on a risk is looked at again.\n\nAdd a record of the type surveillance-plan with its sources and thresholds. Where another document of your quality system holds the plan, the record may be short and refer to it.',
  awaits: ['surveillance-plan'],
  awaitsAnywhere: true,
  examines: 'approved risks',
  subjects: ({ graph }) =>
    graph
      .recordsOf('risk')
      .filter((risk) => risk.status === 'approved')
      .slice(0, 1),
  judge: (risk, { graph }) =>
    graph.recordsOf('surveillance-plan').some((plan) => plan.status !== 'retired')
      ? []
      : [
          {
            place: placeOf(risk, 'status'),
            message:
              'risks such as this one are approved, and no surveillance plan says how experience comes back to them',
            hint: 'Add one with "plinth new surveillance-plan".',
            records: [risk.id],
          },
        ],
});

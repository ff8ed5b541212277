import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const scenarioLeftOutWithoutReason = defineCheck({
  code: 'scenario-left-out-without-reason',
  level: 'warning',
  title: 'A use scenario is left out of the summative evaluation without a reason',
  basis: 'IEC 62366-1:2015 5.5 (from memory); Regulation (EU) 2017/745 Annex I 5',
  explain:
    'The scenario has `selected: false`, so users do not do its task in the summative study, and nothing says why. Scenarios may be left out by their severity or by other criteria, but the choice has to be argued.\n\nWrite the reason under `selection_reason`, or select the scenario.',
  examines: 'use scenarios that are not selected',
  subjects: ({ graph }) =>
    graph
      .recordsOf('use-scenario')
      .filter((record) => record.status !== 'retired' && !record.fields.selected),
  judge: (scenario) =>
    scenario.fields.selection_reason !== undefined
      ? []
      : [
          {
            place: placeOf(scenario, 'selected'),
            message: `${scenario.id} "${scenario.title}" is not selected for the summative evaluation, without a reason`,
            hint: 'Write the reason under "selection_reason", or select the scenario.',
            records: [scenario.id],
          },
        ],
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const scenarioNotSelectedWithoutReason = defineCheck({
  code: 'scenario-not-selected-without-reason',
  level: 'warning',
  title: 'A use scenario is left out of the summative evaluation without a reason',
  basis: 'IEC 62366-1:2015 with Amendment 1:2020, 5.5 (from memory)',
  explain:
    'The scenario says `selected: false` and no `selection_reason`. Not every hazard-related use scenario has to be in the summative evaluation, but the file says by what rule they were chosen: severity of the harm, or other circumstances of the device.\n\nA scenario that was left out silently looks like one that was forgotten.\n\nWrite the reason, or select the scenario and have its task in the study.',
  examines: 'use scenarios',
  subjects: ({ graph }) => graph.recordsOf('use-scenario').filter((record) => record.status !== 'retired'),
  judge: (scenario) =>
    scenario.fields.selected || (scenario.fields.selection_reason ?? '').trim() !== ''
      ? []
      : [
          {
            place: placeOf(scenario, 'selected'),
            message: `${scenario.id} "${scenario.title}" is not selected for the summative evaluation and does not say why`,
            hint: 'Add "selection_reason", or select it.',
            records: [scenario.id],
          },
        ],
});

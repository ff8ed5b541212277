import { criticalityOf, criticalityWords, summativeStudiesOf } from '../evidence/use-scenarios.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const useScenarioNotEvaluated = defineCheck({
  code: 'use-scenario-not-evaluated',
  level: 'warning',
  title: 'A critical or selected use scenario is in no summative study',
  basis: 'IEC 62366-1:2015 with Amendment 1:2020, 5.5 and 5.9 (from memory)',
  explain:
    'The scenario is selected for the summative evaluation, or critical by the severity of its risks or the word of a person, and no summative protocol that it names under `evaluated_by` has its task. A protocol that does not name its kind counts as summative; formative studies and studies in simulated use outside the summative evaluation do not.\n\nEach group of users that does the task has to be among the participants.\n\nWhat users do in a critical task is not known until users with the final design have done it.\n\nName the protocol under `evaluated_by`, write the task there as the scenario does, or plan a study that has it.',
  awaits: ['validation-protocol', 'validation-record'],
  examines: 'critical or selected use scenarios',
  subjects: ({ graph, project }) =>
    graph
      .recordsOf('use-scenario')
      .filter((record) => record.status !== 'retired')
      .map((scenario) => ({ scenario, criticality: criticalityOf(scenario, graph, project.fields) }))
      .filter(({ scenario, criticality }) => scenario.fields.selected || criticality !== undefined),
  judge: ({ scenario, criticality }, { graph }) => {
    const studies = summativeStudiesOf(scenario, graph);
    if (studies.length > 0) {
      const studied = new Set(
        studies.flatMap((protocol) => protocol.fields.user_groups.map((each) => each.group)),
      );
      const missing = scenario.fields.user_groups.filter((group) => !studied.has(group));
      const ids = studies.map((protocol) => protocol.id);
      return missing.length === 0
        ? []
        : [
            {
              place: placeOf(scenario, 'user_groups'),
              message: `${scenario.id} is a task of ${missing.join(' and ')} too, and no summative protocol that it names (${ids.join(', ')}) has participants of that group`,
              hint: `Plan participants of ${missing.join(' and ')} in a summative study of the task "${scenario.fields.task}", or take the group out of the scenario.`,
              records: [scenario.id, ...ids],
              data: { groups: missing },
            },
          ];
    }
    const { task, evaluated_by: named = [] } = scenario.fields;
    const why = criticality
      ? `is critical because ${criticalityWords(criticality)}`
      : 'is selected for the summative evaluation';
    return [
      {
        place: placeOf(scenario, named.length > 0 ? 'evaluated_by' : 'task'),
        message: `${scenario.id} ${why}, but ${
          named.length > 0
            ? `none of ${named.join(', ')} is a summative protocol in force with the task "${task}"`
            : 'it names no protocol'
        }`,
        hint: `Name a summative protocol under "evaluated_by" that has the task "${task}", or plan one.`,
        records: [scenario.id, ...named],
        data: { task },
      },
    ];
  },
});

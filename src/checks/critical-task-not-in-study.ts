import { criticalityOf, criticalityWords, summativeStudiesOf } from '../evidence/use-scenarios.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const criticalTaskNotInStudy = defineCheck({
  code: 'critical-task-not-in-study',
  level: 'error',
  title: 'Users do not do a critical task in the summative study',
  basis:
    'Regulation (EU) 2017/745 Annex I 5; ISO 13485:2016 7.3.7; IEC 62366-1:2015 5.5 and 5.9 (from memory)',
  explain:
    'A use error in this task can lead to a grave harm: the severity of one of its risks reaches the class of `usability.critical_from` (without it the third class), or a person says that it is critical. No summative protocol that the scenario names has the task, or the protocol has it and does not call it critical.\n\nWhat users do under the pressure of the task cannot be argued at a desk.\n\nAdd the task to a summative protocol with `critical: true` and name that protocol under `evaluated_by`. Where a scenario is selected without being critical, the task has to be in the study too.',
  examines: 'use scenarios that are critical or selected',
  subjects: (context) =>
    context.graph
      .recordsOf('use-scenario')
      .filter((record) => record.status !== 'retired')
      .flatMap((scenario) => {
        const criticality = criticalityOf(scenario, context.graph, context.project.fields);
        return criticality || scenario.fields.selected ? [{ scenario, criticality }] : [];
      }),
  judge: ({ scenario, criticality }, { graph }): readonly Draft[] => {
    const { task } = scenario.fields;
    const studies = summativeStudiesOf(scenario, graph);
    const why = criticality ? `critical because ${criticalityWords(criticality)}` : 'selected';
    if (studies.length === 0)
      return [
        {
          place: placeOf(scenario, 'task'),
          message: `the task "${task}" of ${scenario.id} is ${why}, and no summative protocol that it names has this task`,
          hint: 'Add the task to a summative protocol and name the protocol under "evaluated_by".',
          records: [scenario.id],
        },
      ];
    if (!criticality) return [];
    return studies
      .filter((protocol) => !protocol.fields.tasks.some((each) => each.task === task && each.critical))
      .slice(
        0,
        studies.some((protocol) => protocol.fields.tasks.some((each) => each.task === task && each.critical))
          ? 0
          : 1,
      )
      .map((protocol) => ({
        place: placeOf(protocol, 'tasks'),
        message: `${protocol.id} does not call the task "${task}" critical, but it is (${scenario.id}: ${criticalityWords(criticality)})`,
        hint: 'Set "critical: true" at the task.',
        records: [protocol.id, scenario.id],
        related: [{ place: placeOf(scenario, 'task'), message: `the scenario ${scenario.id}` }],
      }));
  },
});

import { criticalityOf, criticalityWords, summativeStudiesOf } from '../evidence/use-scenarios.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const criticalTaskNotInStudy = defineCheck({
  code: 'critical-task-not-in-study',
  level: 'warning',
  title: 'The task of a critical use scenario is not a critical task of its study',
  basis:
    'IEC 62366-1:2015 with Amendment 1:2020, 5.5 and 5.9 (from memory); common practice: criticality by severity',
  explain:
    'The use scenario is critical: one of its risks reaches the severity class from which plinth.yaml calls a task critical (`usability.critical_from`, without that the third class), or a person says so. The summative protocols that it names have the task, and none marks it as critical.\n\nCritical tasks are watched more closely and judged one error at a time; where the acceptance of a study speaks of critical tasks, this one would not count. It happens when a severity is raised after the protocol was written.\n\nMark the task as critical in the protocol and have it approved again. If the study has been done, judge what was seen in this task under the stricter view.',
  examines: 'critical use scenarios in summative studies',
  subjects: ({ graph, project }) =>
    graph
      .recordsOf('use-scenario')
      .filter((record) => record.status !== 'retired')
      .flatMap((scenario) => {
        const criticality = criticalityOf(scenario, graph, project.fields);
        const studies = summativeStudiesOf(scenario, graph);
        return criticality && studies.length > 0 ? [{ scenario, criticality, studies }] : [];
      }),
  judge: ({ scenario, criticality, studies }) => {
    const { task } = scenario.fields;
    const entries = studies.flatMap((protocol) =>
      protocol.fields.tasks.flatMap((each, index) => (each.task === task ? [{ protocol, each, index }] : [])),
    );
    if (entries.some(({ each }) => each.critical)) return [];
    const ids = studies.map((protocol) => protocol.id);
    return [
      {
        place: placeOf(scenario, 'task'),
        message: `${scenario.id} is critical because ${criticalityWords(criticality)}, but its task "${task}" is not marked as critical in ${ids.join(', ')}`,
        hint: `Set "critical: true" at the task "${task}" of ${ids[0]} and have the protocol approved again.`,
        records: [scenario.id, ...ids],
        related: entries.map(({ protocol, index }) => ({
          place: placeOf(protocol, 'tasks', index),
          message: `the task in ${protocol.id}`,
        })),
        data: { task },
      },
    ];
  },
});

import { isSummative } from '../evidence/use-scenarios.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const criticalTaskWithoutScenario = defineCheck({
  code: 'critical-task-without-scenario',
  level: 'warning',
  title: 'A critical task of a study is in no use scenario',
  basis: 'IEC 62366-1:2015 with Amendment 1:2020, 5.4, 5.5 and 5.9 (from memory)',
  explain:
    'A summative protocol marks a task as critical, and no use scenario has that task. What can go wrong in it, which harm follows and for whom is then written nowhere, and the risk file does not know of it.\n\nIt also happens when a task was renamed in one of the two places: then the scenario is evaluated by a task that nobody does.\n\nWrite the use scenario with its use errors and risks, or give the task the name that the scenario has.',
  awaits: ['use-scenario'],
  awaitsAnywhere: true,
  examines: 'critical tasks of summative protocols in files with use scenarios',
  subjects: ({ graph }) =>
    graph.recordsOf('use-scenario').some((scenario) => scenario.status !== 'retired')
      ? graph
          .recordsOf('validation-protocol')
          .filter((protocol) => protocol.status !== 'retired' && isSummative(protocol))
          .flatMap((protocol) =>
            protocol.fields.tasks.flatMap(({ task, critical }, index) =>
              critical ? [{ protocol, task, index }] : [],
            ),
          )
      : [],
  judge: ({ protocol, task, index }, { graph }): readonly Draft[] =>
    graph
      .recordsOf('use-scenario')
      .some((scenario) => scenario.status !== 'retired' && scenario.fields.task === task)
      ? []
      : [
          {
            place: placeOf(protocol, 'tasks', index),
            message: `${protocol.id} has the critical task "${task}", and no use scenario describes it`,
            hint: `Write a use scenario with "task: ${task}", its use errors and risks, or correct the name.`,
            records: [protocol.id],
            data: { task },
          },
        ],
});

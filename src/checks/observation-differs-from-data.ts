import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const observationDiffersFromData = defineCheck({
  code: 'observation-differs-from-data',
  level: 'error',
  title: 'An observation says something else than the raw data',
  basis: 'ISO 13485:2016 7.3.7 (records of the results of validation)',
  explain:
    'An observation names a participant, a task and what happened. The raw data hold another word for that participant and task, the participant does not count in them, or the task has no column.\n\nOne of the two is wrong, and a reader cannot tell which: a difficulty in the data that the report calls a close call, or a use error that it calls a difficulty. Fewer observations than the data have is another check (use-error-unassessed).\n\nCorrect the observation. If the word in the data is wrong, record a deviation; raw data are not changed.',
  examines: 'observations of studies with data',
  subjects: ({ graph, evidence }) =>
    graph
      .recordsOf('validation-record')
      .filter((record) => record.status !== 'retired')
      .flatMap((record) => {
        const tasks = evidence.get(record.id)?.tasks;
        return tasks
          ? (record.fields.observations ?? []).map((observation, index) => ({
              record,
              tasks,
              observation,
              index,
            }))
          : [];
      }),
  judge: ({ record, tasks, observation, index }) => {
    const { participant, task, kind } = observation;
    const outcomes = tasks.get(task);
    const words = outcomes?.byParticipant.get(participant);
    if (words?.includes(kind)) return [];
    const field = outcomes ? (words ? 'kind' : 'participant') : 'task';
    const actual = words
      ? `the data say "${words.join('", "')}"`
      : outcomes
        ? `the data have no participant ${participant} that counts`
        : `the data have columns for ${[...tasks.keys()].map((name) => `"${name}"`).join(', ') || 'no task'}`;
    return [
      {
        place: placeOf(record, 'observations', index, field),
        message: `${record.id} notes a ${kind} of ${participant} in the task "${task}", but ${actual}`,
        hint: 'Correct the observation; if the word in the data is wrong, record a deviation.',
        records: [record.id],
        data: { participant, task, kind },
      },
    ];
  },
});

import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const observationDiffersFromData = defineCheck({
  code: 'observation-differs-from-data',
  level: 'error',
  title: 'An observation says something else than the data of the study',
  basis: 'ISO 13485:2016 4.2.5 and 7.3.7',
  explain:
    'The record tells of a use error, a close call or a difficulty of one participant in one task. The raw data have no such participant, no such task, or another word there. One of the two is wrong, and a reader cannot know which.\n\nCorrect the observation. If the raw data are wrong, record a deviation with what was corrected and why.',
  examines: 'observations of studies with data',
  subjects: ({ graph, evidence }) =>
    graph
      .recordsOf('validation-record')
      .filter((record) => record.status !== 'retired' && evidence.get(record.id)?.tasks !== undefined)
      .flatMap((record) =>
        (record.fields.observations ?? []).map((observation, index) => ({ record, observation, index })),
      ),
  judge: ({ record, observation, index }, { evidence }): readonly Draft[] => {
    const { participant, task, kind } = observation;
    const outcomes = evidence.get(record.id)?.tasks?.get(task);
    const words = outcomes?.byParticipant.get(participant);
    const finding = (field: string, message: string): readonly Draft[] => [
      {
        place: placeOf(record, 'observations', index, field),
        message: `${record.id}: ${message}`,
        hint: 'Correct the observation, or record a deviation where the raw data are wrong.',
        records: [record.id],
      },
    ];
    if (!outcomes) return finding('task', `the data have no task "${task}"`);
    if (!words)
      return finding('participant', `the data have no participant ${participant} in the task "${task}"`);
    return words.includes(kind)
      ? []
      : finding(
          'kind',
          `the observation tells of a ${kind} of ${participant} in the task "${task}", the data say "${words.join('", "')}"`,
        );
  },
});

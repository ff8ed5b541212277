import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const useErrorUnassessed = defineCheck({
  code: 'use-error-unassessed',
  level: 'error',
  title: 'A use error or close call has not been assessed',
  basis: 'ISO 13485:2016 7.3.7; Regulation (EU) 2017/745 Annex I 5; IEC 62366-1:2015 (from memory)',
  explain:
    'The raw data of the study hold a use error or a close call in a task, and the record has fewer `observations` of that task and kind. Each one needs its root cause, found with the participant, and a judgement of what it means for the residual risk.\n\nA use error in a study of fifteen is one that many users will make. Counted but not understood, it will reach patients; the question is what harm follows and whether a change of the design would prevent it.\n\nAdd an observation for each, with participant, task, kind, root cause and judgement. If the word in the data is wrong, record a deviation: raw data are not changed.',
  examines: 'validation records with data',
  subjects: ({ graph, evidence }) =>
    graph
      .recordsOf('validation-record')
      .filter((record) => record.status !== 'retired' && evidence.get(record.id)?.tasks !== undefined),
  judge: (record, { evidence }) => {
    const drafts: Draft[] = [];
    const observations = record.fields.observations ?? [];
    for (const [task, outcomes] of evidence.get(record.id)?.tasks ?? [])
      for (const [kind, count] of [
        ['use error', outcomes.useError],
        ['close call', outcomes.closeCall],
      ] as const) {
        const assessed = observations.filter((each) => each.task === task && each.kind === kind).length;
        if (assessed >= count) continue;
        drafts.push({
          place: placeOf(record, record.fields.observations ? 'observations' : 'data'),
          message: `${record.id} has ${count} of the kind "${kind}" in the task "${task}", but observations of ${assessed}`,
          hint: 'Add an observation for each, with its root cause and a judgement of the residual risk.',
          records: [record.id],
          data: { task, kind, count, assessed },
        });
      }
    return drafts;
  },
});

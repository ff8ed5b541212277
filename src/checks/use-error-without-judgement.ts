import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const useErrorWithoutJudgement = defineCheck({
  code: 'use-error-without-judgement',
  level: 'error',
  title: 'A use error or close call has no judgement of the residual risk',
  basis: 'Regulation (EU) 2017/745 Annex I 4 and 5; IEC 62366-1:2015 5.9 (from memory)',
  explain:
    'The observation has its root cause, and nothing says what it means: which harm can follow, whether the estimate of the risk still stands, whether a change of the design would prevent it.\n\nWrite the judgement under `judgement` of the observation, and name the risk that it bears on under `risk`.',
  examines: 'use errors and close calls that were observed',
  subjects: ({ graph }) =>
    graph
      .recordsOf('validation-record')
      .filter((record) => record.status !== 'retired')
      .flatMap((record) =>
        (record.fields.observations ?? [])
          .map((observation, index) => ({ record, observation, index }))
          .filter(({ observation }) => observation.kind !== 'difficulty'),
      ),
  judge: ({ record, observation, index }) =>
    observation.judgement !== undefined
      ? []
      : [
          {
            place: placeOf(record, 'observations', index, 'kind'),
            message: `${record.id}: the ${observation.kind} of ${observation.participant} in the task "${observation.task}" has no judgement of the residual risk`,
            hint: 'Write what it means under "judgement".',
            records: [record.id],
          },
        ],
});

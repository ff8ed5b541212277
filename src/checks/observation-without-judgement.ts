import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const observationWithoutJudgement = defineCheck({
  code: 'observation-without-judgement',
  level: 'warning',
  title: 'A use error or close call has no judgement of the residual risk',
  basis: 'IEC 62366-1:2015 with Amendment 1:2020, 5.9; ISO 14971:2019 7.3 (both from memory)',
  explain:
    'The observation has its root cause, but no `judgement`. For a use error and for a close call somebody has to say what it means for the residual risk: which harm could follow, whether the risk holds as estimated, whether a change of the design would lower it. The tool asks for the judgement and never makes it.\n\nLet the people who answer for the risk judge it and write the result under `judgement`; name the risk under `risk`. A difficulty needs none.',
  examines: 'use errors and close calls',
  subjects: ({ graph }) =>
    graph
      .recordsOf('validation-record')
      .filter((record) => record.status !== 'retired')
      .flatMap((record) =>
        (record.fields.observations ?? []).map((observation, index) => ({ record, observation, index })),
      )
      .filter(({ observation }) => observation.kind !== 'difficulty'),
  judge: ({ record, observation: { participant, task, kind, judgement }, index }) =>
    (judgement ?? '').trim() !== ''
      ? []
      : [
          {
            place: placeOf(record, 'observations', index),
            message: `${record.id} has a ${kind} of ${participant} in the task "${task}" without a judgement of the residual risk`,
            hint: 'Add "judgement", and under "risk" the risk that it bears on.',
            records: [record.id],
            data: { participant, task, kind },
          },
        ],
});

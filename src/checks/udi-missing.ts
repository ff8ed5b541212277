import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

const clause = '23.2(h)';

export const udiMissing = defineCheck({
  code: 'udi-missing',
  level: 'warning',
  title: 'A label carries a unique device identifier, and its record does not give it',
  basis: 'Regulation (EU) 2017/745 Annex I 23.2(h); that the record gives it is common practice, no source',
  explain:
    'A label lists the particular 23.2(h), the carrier of the unique device identifier, and plinth.yaml has the identifiers of the device; the record has no `udi`. So nobody compares the identifier with the level of packaging, the lot and the dates of the label.\n\nA wrong digit in a carrier is not seen by the eye. Devices that scan as another level or lot are not found in a recall.\n\nWrite under `udi` what the carrier holds, for one lot as an example: `(01)09520123456788(17)290531(10)L004`.',
  examines: 'labels with a carrier, where plinth.yaml has identifiers',
  subjects: ({ graph, project }) =>
    (project.fields.device.identifiers ?? []).length === 0
      ? []
      : graph
          .recordsOf('design-output')
          .filter(
            ({ status, fields }) =>
              status !== 'retired' &&
              fields.kind === 'label' &&
              (fields.particulars ?? []).some((particular) => particular.clause === clause),
          ),
  judge: (output): readonly Draft[] =>
    output.fields.udi !== undefined
      ? []
      : [
          {
            place: placeOf(
              output,
              'particulars',
              (output.fields.particulars ?? []).findIndex((particular) => particular.clause === clause),
              'content',
            ),
            message: `${output.id} lists the particular ${clause} and has no "udi" to hold against the identifiers of the device`,
            hint: 'Write under "udi" what the carrier holds, for one lot as an example.',
            records: [output.id],
            data: { clause },
          },
        ],
});

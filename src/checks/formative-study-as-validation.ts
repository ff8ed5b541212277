import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const formativeStudyAsValidation = defineCheck({
  code: 'formative-study-as-validation',
  level: 'error',
  title: 'A formative study is counted as validation',
  basis: 'IEC 62366-1:2015 with Amendment 1:2020, 5.8 and 5.9 (from memory); ISO 13485:2016 7.3.7',
  explain:
    'The protocol is formative and names user needs under `validates`, or inputs under `verifies`. A formative study is done to find what to change, mostly with few users and an early design. Its result would be counted as if the final design had been shown.\n\nTake the needs and inputs out, and have them shown by a summative study or in simulated use. If the study was done with the final design and planned for that, it is not formative: correct `study`.',
  examines: 'validation protocols',
  subjects: ({ graph }) =>
    graph.recordsOf('validation-protocol').filter((protocol) => protocol.status !== 'retired'),
  judge: (protocol) =>
    protocol.fields.study !== 'formative'
      ? []
      : (['validates', 'verifies'] as const).flatMap((field) => {
          const named = protocol.fields[field] ?? [];
          return named.length === 0
            ? []
            : [
                {
                  place: placeOf(protocol, field),
                  message: `${protocol.id} is a formative study and ${field} ${named.join(', ')}`,
                  hint: `Take them out of "${field}", and have a summative study show them.`,
                  records: [protocol.id, ...named],
                },
              ];
        }),
});

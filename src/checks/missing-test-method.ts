import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Methods that judge measured readings by more than whether each keeps the limit. */
const measuring: ReadonlySet<string> = new Set([
  'normal-tolerance-interval',
  'lognormal-tolerance-bound',
  'transformed-normal-tolerance-interval',
  'weibull-lower-bound',
  'nonparametric-tolerance-interval',
]);

export const missingTestMethod = defineCheck({
  code: 'missing-test-method',
  level: 'warning',
  title: 'A protocol measures and names no test method',
  basis: 'common practice, no source',
  explain:
    'The protocol judges measured readings by a tolerance interval or bound and names no test method. Nothing then says how the reading is taken, with which resolution, and how much of the spread comes from the gauge and its operators. A gauge that spreads wide hides a good design; one that is blind hides a bad one.\n\nName the test method under `uses`, and give it a study of repeatability and reproducibility. Where a standard method is run as written, record it as a test method with the standard, and show that your operators and fixtures can do it.',
  examines: 'test protocols with a tolerance interval or bound',
  subjects: ({ graph }) =>
    graph
      .recordsOf('verification-protocol')
      .filter(
        ({ status, fields }) =>
          status !== 'retired' && fields.method === 'test' && measuring.has(fields.sampling.kind),
      ),
  judge: (protocol) =>
    (protocol.fields.uses ?? []).length > 0
      ? []
      : [
          {
            place: placeOf(protocol, protocol.fields.uses ? 'uses' : 'method'),
            message: `${protocol.id} "${protocol.title}" names no test method`,
            hint: 'Name it under "uses" (plinth new test-method).',
            records: [protocol.id],
          },
        ],
});

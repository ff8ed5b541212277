import { statedResult } from '../evidence/stated-result.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const statedResultDiffers = defineCheck({
  code: 'stated-result-differs',
  level: 'error',
  title: 'A stated result differs from what the data show',
  basis: 'ISO 13485:2016 7.3.6 (acceptance criteria, statistical techniques, recorded conclusions)',
  explain:
    'The record says one thing, the raw data or the figures of the calculation say another, by the method and the acceptance that the protocol laid down. The usual case: every single reading keeps the limit, but the tolerance bound, which speaks for the units that were not tested, does not. A wrong pass can put an unsafe design into the hands of a surgeon; it is the gravest thing that a technical file can get wrong.\n\nRead the reason in the message; the verification summary shows the figures of each step. Correct the stated result with its approval, and deal with the failure: design change, deviation, or a repetition with its reason. If the data are wrong, correct them through a deviation, not by hand.',
  examines: 'stated results with a recomputed verdict',
  subjects: ({ graph, evidence }) =>
    [...evidence.values()].flatMap((found) => {
      const stated = statedResult(graph, found);
      return stated?.result === undefined || found.verdict === 'undecided' ? [] : [{ found, ...stated }];
    }),
  judge: ({ found, record, result, path }) =>
    result === found.verdict
      ? []
      : [
          {
            place: placeOf(record, ...path),
            message: `${record.id} states ${result}, recomputed ${found.verdict}: ${found.reason}`,
            hint:
              found.verdict === 'fail'
                ? 'Correct the stated result, and deal with the failure.'
                : 'Correct the stated result, or the limits and data that it was judged by.',
            records: found.protocol ? [record.id, found.protocol] : [record.id],
            data: { stated: result ?? '', recomputed: found.verdict, method: found.method },
          },
        ],
});

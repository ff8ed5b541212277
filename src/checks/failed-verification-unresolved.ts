import { statedResult } from '../evidence/stated-result.ts';
import { upstreamClaims } from '../graph/upstream-claims.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const failedVerificationUnresolved = defineCheck({
  code: 'failed-verification-unresolved',
  level: 'error',
  title: 'A failure has not been resolved',
  basis:
    'ISO 13485:2016 7.3.6 and 7.3.7 (outputs meet inputs; conclusions and necessary actions are recorded)',
  explain:
    'The record states a failure, the data agree, and no later record repeats the work. An honest failure is good news for the patient who never met it, but the input or need that it speaks for is not met by the design as it stands.\n\nFind the cause, change the design or justify the repetition, and add a record with `retests` and `because`. An analysis that no longer holds is retired once another one has taken its place.',
  awaits: ['verification-protocol', 'verification-record', 'design-change', 'deviation'],
  examines: 'records with raw data or a calculation',
  subjects: ({ graph, evidence }) =>
    [...evidence.values()].flatMap((found) => {
      const stated = statedResult(graph, found);
      return stated && stated.record.type !== 'test-method' ? [{ found, ...stated }] : [];
    }),
  judge: ({ found, record, result, path }, { graph }) => {
    if (found.verdict !== 'fail' || result !== 'fail') return [];
    if (graph.sources(record.id, 'retests', 'verification-record').length > 0) return [];
    return [
      {
        place: placeOf(record, ...path),
        message: `${record.id} failed and nothing has resolved it: ${found.reason}`,
        hint:
          record.type === 'verification-record'
            ? `Change the design or justify the repetition, then add a record with "retests: ${record.id}".`
            : 'Change the design or the claim, and show it anew.',
        records: found.protocol ? [record.id, found.protocol] : [record.id],
        related: upstreamClaims(graph, record.id).map(({ claim, chain }) => ({
          place: placeOf(claim, 'id'),
          message: `${claim.id} rests on it: ${chain.join(' → ')}`,
        })),
      },
    ];
  },
});

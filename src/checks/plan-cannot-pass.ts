import { confidenceReliability } from '../evidence/number-text.ts';
import { smallestPassingSize } from '../evidence/sample-plan.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const planCannotPass = defineCheck({
  code: 'plan-cannot-pass',
  level: 'error',
  title: 'A sampling plan is too small to show what it claims',
  basis: 'ISO 13485:2016 7.3.6 (sample size with rationale); success-run theorem and exact binomial',
  explain:
    'Even if no more units fail than the acceptance number allows, this many units cannot show the reliability with the confidence that the plan states: 95/95 without a failure takes 59 units, 95/99 takes 299. Work under such a plan is spent for nothing, and a report that claims the figures all the same misleads.\n\nPlan at least the number in the message, lower the claim as far as the sampling policy allows, or measure a variable: a tolerance interval shows more with fewer units where the spread is small.',
  examines: 'sampling plans of protocols with a smallest size',
  subjects: ({ graph }) =>
    [...graph.recordsOf('verification-protocol'), ...graph.recordsOf('validation-protocol')]
      .filter((protocol) => protocol.status !== 'retired')
      .flatMap((protocol) => {
        const smallest = smallestPassingSize(protocol.fields.sampling, protocol.fields.acceptance);
        const { size } = protocol.fields.sampling;
        return smallest === undefined || size === undefined ? [] : [{ protocol, smallest, size }];
      }),
  judge: ({ protocol, smallest, size }) => {
    if (size >= smallest) return [];
    const { kind, confidence = 0, reliability = 0, accept = 0 } = protocol.fields.sampling;
    // A success run allows no failure, whatever acceptance number is written.
    const allowed = kind === 'success-run' ? 0 : accept;
    const failures = allowed === 1 ? '1 failure' : `${allowed} failures`;
    const under = kind === 'attribute' || kind === 'success-run' ? ` with up to ${failures}` : '';
    return [
      {
        place: placeOf(protocol, 'sampling', 'size'),
        message: `${protocol.id} plans ${size} units, but ${confidenceReliability(confidence, reliability)}${under} takes ${smallest}`,
        hint: `Plan at least ${smallest} units, or lower the claim as far as the sampling policy allows.`,
        records: [protocol.id],
        data: { size, smallest },
      },
    ];
  },
});

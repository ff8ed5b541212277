import { evidenceMethod } from '../evidence/methods/index.ts';
import { confidenceReliability } from '../evidence/number-text.ts';
import { smallestPassingSize } from '../evidence/sample-plan.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

type Protocol = RecordOf<'verification-protocol'> | RecordOf<'validation-protocol'>;

/** Units with which the claim can be shown at all, where it hangs on nothing but the plan. */
const smallestOf = ({ fields }: Protocol): number | undefined =>
  smallestPassingSize(fields.sampling, fields.acceptance);

/** Units with which the distribution that the method assumes can be tested. */
const fewestOf = ({ fields }: Protocol): number | undefined =>
  evidenceMethod(fields.sampling.kind)?.fewestUnits?.(fields.sampling);

export const planCannotPass = defineCheck({
  code: 'plan-cannot-pass',
  level: 'error',
  title: 'A sampling plan is too small to show what it claims',
  basis:
    "ISO 13485:2016 7.3.6 (sample size with rationale); success-run theorem and exact binomial; test of normality from 8 units on (D'Agostino and Stephens, 1986)",
  explain:
    'Even if no more units fail than the acceptance number allows, this many units cannot show the reliability with the confidence that the plan states: 95/95 without a failure takes 59 units, 95/99 takes 299. Work under such a plan is spent for nothing, and a report that claims the figures all the same misleads.\n\nPlan at least the number in the message, lower the claim as far as the sampling policy allows, or measure a variable: a tolerance interval shows more with fewer units where the spread is small. A method that assumes a distribution needs as many units as a test of that distribution: with fewer, the verdict stays undecided.',
  examines: 'sampling plans of protocols with a smallest size',
  subjects: ({ graph }) =>
    [...graph.recordsOf('verification-protocol'), ...graph.recordsOf('validation-protocol')].filter(
      (protocol) =>
        protocol.status !== 'retired' &&
        protocol.fields.sampling.size !== undefined &&
        (smallestOf(protocol) !== undefined || fewestOf(protocol) !== undefined),
    ),
  judge: (protocol): readonly Draft[] => {
    const { kind, size = 0, confidence = 0, reliability = 0, accept = 0 } = protocol.fields.sampling;
    const place = placeOf(protocol, 'sampling', 'size');
    const smallest = smallestOf(protocol);
    if (smallest !== undefined && size < smallest) {
      // A success run allows no failure, whatever acceptance number is written.
      const allowed = kind === 'success-run' ? 0 : accept;
      const failures = allowed === 1 ? '1 failure' : `${allowed} failures`;
      const under = kind === 'attribute' || kind === 'success-run' ? ` with up to ${failures}` : '';
      return [
        {
          place,
          message: `${protocol.id} plans ${size} units, but ${confidenceReliability(confidence, reliability)}${under} takes ${smallest}`,
          hint: `Plan at least ${smallest} units, or lower the claim as far as the sampling policy allows.`,
          records: [protocol.id],
          data: { size, smallest },
        },
      ];
    }
    const fewest = fewestOf(protocol);
    return fewest === undefined || size >= fewest
      ? []
      : [
          {
            place,
            message: `${protocol.id} plans ${size} units, but with fewer than ${fewest} the distribution that ${kind} assumes cannot be tested, and the verdict is undecided`,
            hint: `Plan at least ${fewest} units, or a method that assumes no distribution.`,
            records: [protocol.id],
            data: { size, smallest: fewest },
          },
        ];
  },
});

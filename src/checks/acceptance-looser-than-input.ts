import { type Bounds, compareWithLimit } from '../evidence/limit-comparison.ts';
import { hasNumber, type IndexedAcceptance, limitsUnderTest } from '../evidence/limits-under-test.ts';
import { allVerifiers } from '../graph/verifiers.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { withUnit } from '../records/units.ts';
import { type Draft, defineCheck } from './check.ts';

type Bound = 'lower' | 'upper';

const onlyBound = (bounds: Bounds, bound: Bound, value: number): Bounds => ({
  characteristic: bounds.characteristic,
  ...(bounds.unit === undefined ? {} : { unit: bounds.unit }),
  [bound]: value,
});

/** The acceptance that keeps least from the limit, or undefined where one of them keeps the bound or the units differ in kind. */
const looserAcceptance = (
  acceptances: readonly IndexedAcceptance[],
  limit: Bounds,
): IndexedAcceptance | undefined => {
  const outcomes = acceptances.map((each) =>
    hasNumber(each.bounds) ? compareWithLimit(each.bounds, limit).kind : 'looser',
  );
  return outcomes.every((kind) => kind === 'looser') ? acceptances[0] : undefined;
};

const written = (
  record: TechnicalRecord,
  list: string,
  index: number,
  bound: Bound,
  bounds: Bounds,
): string => withUnit(record.yaml.written([list, index, bound]) ?? bounds[bound] ?? '', bounds.unit ?? '1');

export const acceptanceLooserThanInput = defineCheck({
  code: 'acceptance-looser-than-input',
  level: 'error',
  title: 'A protocol accepts more than its design input allows',
  basis: 'ISO 13485:2016 7.3.6 (acceptance criteria)',
  explain:
    'The acceptance of the protocol is looser than the limit of the design input that it verifies, or it leaves a bound out. A unit can then pass the test and still not meet the requirement, so the pass shows nothing. It is a common question of reviewers: the criterion differs between protocol and specification.\n\nBring the acceptance to the limit of the input (stricter is fine). If the limit itself is wrong, change the input with its reason and its approval, not the protocol. Units are converted before the two are compared; where the input sets limits by condition, only those for the condition of the protocol count.',
  examines: 'limits of design inputs under test',
  subjects: ({ graph }) =>
    allVerifiers(graph).flatMap((verifier) =>
      limitsUnderTest(graph, verifier).map((under) => ({ verifier, ...under })),
    ),
  judge: ({ verifier, input, limit, limitIndex, acceptances }) =>
    (['lower', 'upper'] as const).flatMap((bound): readonly Draft[] => {
      const required = limit[bound];
      if (required === undefined) return [];
      const looser = looserAcceptance(acceptances, onlyBound(limit, bound, required));
      if (!looser) return [];
      const asked = written(input, 'limits', limitIndex, bound, limit);
      const word = bound === 'lower' ? 'at least' : 'at most';
      const accepts =
        looser.bounds[bound] === undefined
          ? `sets no ${bound} limit for "${limit.characteristic}"`
          : `accepts "${limit.characteristic}" of ${word} ${written(verifier, 'acceptance', looser.index, bound, looser.bounds)}`;
      return [
        {
          place: placeOf(verifier, 'acceptance', looser.index, bound),
          message: `${verifier.id} ${accepts}, ${input.id} asks for ${word} ${asked}`,
          hint: `Accept ${word} ${asked}, or change the limit of ${input.id} with its reason.`,
          records: [verifier.id, input.id],
          related: [
            { place: placeOf(input, 'limits', limitIndex, bound), message: `${input.id}: ${word} ${asked}` },
          ],
          data: { characteristic: limit.characteristic, bound, required },
        },
      ];
    }),
});

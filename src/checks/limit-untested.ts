import { type Limit, sameCharacteristic } from '../evidence/limit-comparison.ts';
import { conditionsOf, conditionsUnderTest, showsIn } from '../evidence/limits-under-test.ts';
import { type Verifier, verifiersOf } from '../graph/verifiers.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/** An analysis without acceptance computes what the input claims, whatever its name. */
const tests = (verifier: Verifier, limit: Limit): boolean => {
  const { acceptance } = verifier.fields;
  if (acceptance === undefined) return true;
  return acceptance.some((each) => sameCharacteristic(each.characteristic, limit.characteristic));
};

export const limitUntested = defineCheck({
  code: 'limit-untested',
  level: 'error',
  title: 'A limit of a design input is not tested',
  basis: 'ISO 13485:2016 7.3.6',
  explain:
    'The input is verified, but not all of it: no acceptance criterion of its protocols and analyses names this characteristic, or none of them tests it in a condition that the input asks for. A seal that is only tested fresh says nothing about the one that a surgeon opens in three years.\n\nAdd the characteristic to the acceptance of a protocol, spelt as in the input, or add a protocol for the missing condition. An analysis counts for the conditions that it names; without any it counts only where the limit names none. Where the limit does not have to hold in that condition, correct `conditions` of the input.',
  awaits: ['verification-protocol', 'validation-protocol', 'analysis'],
  examines: 'limits of verified design inputs',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-input')
      .filter((input) => input.status !== 'retired')
      .flatMap((input) => {
        const verifiers = verifiersOf(graph, input.id);
        return verifiers.length === 0
          ? []
          : input.fields.limits.map((limit, index) => ({ input, limit, index, verifiers }));
      }),
  judge: ({ input, limit, index, verifiers }): readonly Draft[] => {
    const { characteristic } = limit;
    const covering = verifiers.filter((verifier) => tests(verifier, limit));
    const related = verifiers.map((verifier) => ({
      place: placeOf(verifier, 'verifies'),
      message: `${verifier.id} verifies ${input.id}`,
    }));
    if (covering.length === 0)
      return [
        {
          place: placeOf(input, 'limits', index, 'characteristic'),
          message: `${input.id} limits "${characteristic}", which no acceptance of ${verifiers.map((each) => each.id).join(', ')} names`,
          hint: `Add "${characteristic}" to the acceptance of a protocol that verifies ${input.id}.`,
          records: [input.id],
          related,
          data: { characteristic },
        },
      ];
    const tested =
      [...new Set(covering.flatMap((verifier) => conditionsUnderTest(verifier) ?? []))].join(', ') ||
      'none that its analyses name';
    return conditionsOf(limit)
      .filter((wanted) => !covering.some((verifier) => showsIn(verifier, limit, wanted)))
      .map((wanted) => ({
        place: placeOf(input, 'limits', index, limit.conditions ? 'conditions' : 'characteristic'),
        message: `${input.id} limits "${characteristic}" in the condition ${wanted}, tested only in: ${tested}`,
        hint: `Add a protocol with "condition: ${wanted}", name it under "conditions" of an analysis that speaks for it, or correct the conditions of the limit.`,
        records: [input.id],
        related,
        data: { characteristic, condition: wanted },
      }));
  },
});

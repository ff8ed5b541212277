import { compareWithLimit } from '../evidence/limit-comparison.ts';
import { hasNumber, limitsUnderTest } from '../evidence/limits-under-test.ts';
import { allVerifiers } from '../graph/verifiers.ts';
import { placeOf } from '../records/record.ts';
import { isKnownUnit } from '../records/units.ts';
import { type Draft, defineCheck } from './check.ts';

const unitWords = (unit: string | undefined): string =>
  unit === undefined ? 'without a unit' : isKnownUnit(unit) ? `in ${unit}` : `in the unknown unit ${unit}`;

export const acceptanceUnitNotConvertible = defineCheck({
  code: 'acceptance-unit-not-convertible',
  level: 'error',
  title: 'The unit of an acceptance cannot be converted to that of the design input',
  basis: 'ISO 13485:2016 7.3.6 (acceptance criteria)',
  explain:
    'The protocol states its acceptance in a unit that measures another quantity than the limit of the design input, or in a unit that is not known. The two cannot be compared, so whether the protocol tests the requirement is open. Parts per million and milligrams are a classic pair: without a mass, neither says anything about the other.\n\nState both in units of one quantity. UCUM codes and common forms such as °C and µm are understood; a name in braces, such as {EU}, has to be the same on both sides.',
  examines: 'limits of design inputs under test',
  subjects: ({ graph }) =>
    allVerifiers(graph).flatMap((verifier) =>
      limitsUnderTest(graph, verifier).map((under) => ({ verifier, ...under })),
    ),
  judge: ({ verifier, input, limit, limitIndex, acceptances }) =>
    acceptances.flatMap(({ bounds, index }): readonly Draft[] => {
      if (!hasNumber(bounds) || compareWithLimit(bounds, limit).kind !== 'not convertible') return [];
      return [
        {
          place: placeOf(verifier, 'acceptance', index, 'unit'),
          message: `${verifier.id} accepts "${bounds.characteristic}" ${unitWords(bounds.unit)}, which cannot be converted to the limit of ${input.id} ${unitWords(limit.unit)}`,
          hint: limit.unit
            ? `State the acceptance in ${limit.unit}, or correct the unit of ${input.id}.`
            : `Add the unit to the limit of ${input.id}.`,
          records: [verifier.id, input.id],
          related: [
            {
              place: placeOf(input, 'limits', limitIndex, 'unit'),
              message: `limit of ${input.id} ${unitWords(limit.unit)}`,
            },
          ],
          data: { characteristic: bounds.characteristic, from: bounds.unit ?? '1', to: limit.unit ?? '1' },
        },
      ];
    }),
});

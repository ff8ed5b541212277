import { limitsUnderTest } from '../evidence/limits-under-test.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Methods that speak of the mean of all units, not of single ones. */
const ofTheMean: ReadonlySet<string> = new Set(['mean', 'equivalence']);

export const unitLimitJudgedByMean = defineCheck({
  code: 'unit-limit-judged-by-mean',
  level: 'warning',
  title: 'A limit for each unit is judged by the mean of the units',
  basis: 'ISO 13485:2016 7.3.6 (statistical techniques appropriate to the claim)',
  explain:
    'The protocol evaluates its data by a method that makes a statement about the mean of all units. The limit of the design input holds for each unit: it does not say `of: mean`. A mean well inside the limit goes together with many units outside it.\n\nThe sampling policy asks for a share of units with a confidence. A statement about the mean carries neither, so a protocol of this kind would pass by the policy unseen.\n\nUse a method that speaks of units (a tolerance interval, an attribute plan). Where the requirement really is about the mean, such as a declared content or the shift of aged units against fresh ones, say `of: mean` at the limit.',
  examines: 'limits judged by methods for the mean',
  subjects: ({ graph }) =>
    [...graph.recordsOf('verification-protocol'), ...graph.recordsOf('validation-protocol')].flatMap(
      (protocol) => {
        const kind = protocol.fields.sampling?.kind;
        if (protocol.status === 'retired' || kind === undefined || !ofTheMean.has(kind)) return [];
        return limitsUnderTest(graph, protocol).map((each) => ({ protocol, kind, ...each }));
      },
    ),
  judge: ({ protocol, kind, input, limit, limitIndex }) =>
    limit.of === 'mean'
      ? []
      : [
          {
            place: placeOf(protocol, 'sampling', 'kind'),
            message: `${protocol.id} judges "${limit.characteristic}" of ${input.id} by the method ${kind}, which speaks of the mean, but the limit holds for each unit`,
            hint: `Plan a method that speaks of units, or say "of: mean" at the limit of ${input.id} if that is what is required.`,
            records: [protocol.id, input.id],
            related: [
              {
                place: placeOf(input, 'limits', limitIndex),
                message: `${input.id} limits ${limit.characteristic}`,
              },
            ],
            data: { characteristic: limit.characteristic, method: kind },
          },
        ],
});

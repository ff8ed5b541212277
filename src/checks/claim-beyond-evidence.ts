import { type Claim, claims, verifierBehind } from '../evidence/claims.ts';
import { evidenceTypes } from '../evidence/evidence-types.ts';
import { type Bounds, compareWithLimit, sameCharacteristic } from '../evidence/limit-comparison.ts';
import { conditionsUnderTest, sameCondition } from '../evidence/limits-under-test.ts';
import type { Verifier } from '../graph/verifiers.ts';
import { placeOf } from '../records/record.ts';
import { withUnit } from '../records/units.ts';
import { type Draft, defineCheck } from './check.ts';

type ClaimLimit = NonNullable<Claim['fields']['limits']>[number];

interface Accepted {
  readonly verifier: Verifier;
  readonly bounds: Bounds;
  readonly index: number;
}

export const claimBeyondEvidence = defineCheck({
  code: 'claim-beyond-evidence',
  level: 'error',
  title: 'A claim says more than its evidence was accepted against',
  basis:
    'Regulation (EU) 2017/745 Article 7(a) (no properties that the device does not have); ISO 13485:2016 7.3.6',
  explain:
    'A limit of the claim is stricter than the acceptance of every piece of its evidence, no evidence was accepted against that characteristic, or none was tested in a condition that the claim is made for. Units are converted before the two are compared.\n\nA test that accepts 25 N does not show 20 N, even where all readings were lower: the sample was sized and judged for 25 N.\n\nClaim what was shown, or plan a test against the number that is claimed.',
  awaits: evidenceTypes,
  examines: 'limits of claims',
  subjects: ({ graph }) =>
    claims(graph).flatMap((claim) => {
      const evidence = claim.fields.evidence ?? [];
      const verifiers = [
        ...new Set(evidence.map((id) => verifierBehind(id, graph)).filter((found) => found !== undefined)),
      ];
      // Without any evidence there is a finding already.
      return verifiers.length === 0
        ? []
        : (claim.fields.limits ?? []).map((limit, index) => ({ claim, limit, index, verifiers }));
    }),
  judge: ({ claim, limit, index, verifiers }): readonly Draft[] => {
    const accepted = verifiers.flatMap((verifier): readonly Accepted[] =>
      (verifier.fields.acceptance ?? []).flatMap((bounds, at) =>
        sameCharacteristic(bounds.characteristic, limit.characteristic)
          ? [{ verifier, bounds, index: at }]
          : [],
      ),
    );
    const fault = (field: string, message: string, hint: string, against: readonly Accepted[]): Draft => ({
      place: placeOf(claim, 'limits', index, field),
      message: `${claim.id}: ${message}`,
      hint,
      records: [claim.id, ...verifiers.map(({ id }) => id)],
      related: against.slice(0, 5).map((each) => ({
        place: placeOf(each.verifier, 'acceptance', each.index),
        message: `the acceptance of ${each.verifier.id}`,
      })),
      data: { characteristic: limit.characteristic },
    });
    if (accepted.length === 0)
      return [
        fault(
          'characteristic',
          `"${limit.characteristic}" is in the acceptance of none of its evidence (${verifiers.map(({ id }) => id).join(', ')})`,
          'Name the evidence that was accepted against it, or correct the name of the characteristic.',
          [],
        ),
      ];
    return (limit.conditions ?? [undefined]).flatMap((condition): readonly Draft[] => {
      const meant =
        condition === undefined
          ? accepted
          : accepted.filter(({ verifier }) =>
              conditionsUnderTest(verifier)?.some((each) => sameCondition(each, condition)),
            );
      if (meant.length === 0)
        return [
          fault(
            'conditions',
            `"${limit.characteristic}" is claimed for units that are ${condition}, and no evidence tested such units`,
            'Name the evidence for this condition, or leave the condition out of the statement.',
            accepted,
          ),
        ];
      return (['lower', 'upper'] as const).flatMap((bound) =>
        beyond(claim, limit, index, bound, meant, fault),
      );
    });
  },
});

const beyond = (
  claim: Claim,
  limit: ClaimLimit,
  index: number,
  bound: 'lower' | 'upper',
  accepted: readonly Accepted[],
  fault: (field: string, message: string, hint: string, against: readonly Accepted[]) => Draft,
): readonly Draft[] => {
  const claimed = limit[bound];
  if (claimed === undefined) return [];
  const asked: Bounds = {
    characteristic: limit.characteristic,
    ...(limit.unit === undefined ? {} : { unit: limit.unit }),
    [bound]: claimed,
  };
  if (accepted.some(({ bounds }) => compareWithLimit(bounds, asked).kind === 'same or stricter')) return [];
  const word = bound === 'lower' ? 'at least' : 'at most';
  const written = withUnit(claim.yaml.written(['limits', index, bound]) ?? claimed, limit.unit ?? '1');
  const accepts = accepted
    .map(({ verifier, bounds, index: at }) =>
      bounds[bound] === undefined
        ? `${verifier.id} sets no ${bound} limit`
        : `${verifier.id} accepts ${word} ${withUnit(verifier.yaml.written(['acceptance', at, bound]) ?? bounds[bound], bounds.unit ?? '1')}`,
    )
    .join(', ');
  return [
    fault(
      bound,
      `claims "${limit.characteristic}" of ${word} ${written}, and ${accepts}`,
      'Claim what was accepted, or test against the number that is claimed.',
      accepted,
    ),
  ];
};

import type { TraceGraph } from '../graph/trace-graph.ts';
import type { Verifier } from '../graph/verifiers.ts';
import type { RecordOf } from '../records/record.ts';
import { type Bounds, type Limit, sameCharacteristic } from './limit-comparison.ts';

/** States of the units in which a limit must be shown: `fresh` where it names none. */
export const conditionsOf = (limit: Limit): readonly string[] => limit.conditions ?? ['fresh'];

/**
 * The conditions that a protocol tests in or an analysis speaks for. Undefined for studies with users, which count for
 * any, and for an analysis that names none: it then counts where the limit names none either.
 */
export const conditionsUnderTest = (verifier: Verifier): readonly string[] | undefined =>
  verifier.type === 'verification-protocol'
    ? [verifier.fields.condition]
    : verifier.type === 'analysis'
      ? verifier.fields.conditions
      : undefined;

/** Whether a protocol or analysis shows a limit in one of the conditions that the limit is for. */
export const showsIn = (verifier: Verifier, limit: Limit, wanted: string): boolean => {
  const conditions = conditionsUnderTest(verifier);
  if (conditions === undefined) return verifier.type !== 'analysis' || limit.conditions === undefined;
  return conditions.some((each) => sameCondition(each, wanted));
};

/** Whether two names of a condition mean the same one: case and blanks do not matter. */
export const sameCondition = sameCharacteristic;

/** One acceptance criterion, with its place in the list. */
export interface IndexedAcceptance {
  readonly bounds: Bounds;
  readonly index: number;
}

/** A limit of a design input and what one protocol or analysis accepts for it. */
export interface LimitUnderTest {
  readonly input: RecordOf<'design-input'>;
  readonly limit: Limit;
  readonly limitIndex: number;
  readonly acceptances: readonly IndexedAcceptance[];
}

/** Whether a limit has a number, so that an acceptance can be compared with it. */
export const hasNumber = (bounds: Bounds): boolean =>
  bounds.lower !== undefined || bounds.upper !== undefined;

/**
 * The limits in numbers that a protocol or analysis judges: of the design inputs that it verifies, those whose
 * characteristic its acceptance names. Where an input limits a characteristic differently by condition, only the
 * limits for the protocol's condition count; where none is for it, all do.
 */
export const limitsUnderTest = (graph: TraceGraph, verifier: Verifier): readonly LimitUnderTest[] => {
  const conditions = conditionsUnderTest(verifier);
  const accepted = (verifier.fields.acceptance ?? []).map((bounds, index) => ({ bounds, index }));
  return graph
    .targets(verifier.id, 'verifies', 'design-input')
    .filter((input) => input.status !== 'retired')
    .flatMap((input) => {
      const all = input.fields.limits.flatMap((limit, limitIndex): LimitUnderTest[] => {
        const acceptances = accepted.filter(({ bounds }) =>
          sameCharacteristic(bounds.characteristic, limit.characteristic),
        );
        return hasNumber(limit) && acceptances.length > 0 ? [{ input, limit, limitIndex, acceptances }] : [];
      });
      const isMeant = ({ limit }: LimitUnderTest): boolean =>
        conditions === undefined ||
        conditionsOf(limit).some((each) => conditions.some((other) => sameCondition(each, other)));
      return all.filter(
        (one) =>
          isMeant(one) ||
          !all.some(
            (other) =>
              sameCharacteristic(other.limit.characteristic, one.limit.characteristic) && isMeant(other),
          ),
      );
    });
};

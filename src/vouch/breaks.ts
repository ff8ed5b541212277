import type { VouchStep } from './vouch.ts';

export interface Chain {
  readonly claim: VouchStep;
  readonly up: readonly VouchStep[];
  readonly down: readonly VouchStep[];
  /** True where a verdict was computed for a record. */
  readonly hasResult: (id: string) => boolean;
  /** True where records of the claim's type answer to something, so that one that doesn't hangs in the air. */
  readonly mustAnswer: boolean;
}

/** Types that accompany a chain and bear no weight in it: the claim does not fall with the minutes of a review. */
const accompanying: ReadonlySet<string> = new Set(['design-review', 'design-change', 'deviation']);

/** Types that nothing below has to show: they are registers, and methods whose study is their own. */
const showsItself: ReadonlySet<string> = new Set([
  ...accompanying,
  'equipment',
  'standard',
  'test-method',
  'document',
]);

/** True where a step bears the claim, so that it must be approved. */
export const bears = (step: VouchStep): boolean => !accompanying.has(step.type);

/** True where a record is itself the reason why something is not shown: nothing below it was done. */
const isLooseEnd = ({ id, standing }: VouchStep): boolean =>
  (standing?.state === 'unplanned' || standing?.state === 'planned') && standing.because.at(-1) === id;

const standsAs = (step: VouchStep): string =>
  `${step.id} stands as ${step.standing?.state}: ${step.standing?.reason}`;

const approvalBreaks = (step: VouchStep): readonly string[] => [
  ...(step.isJudged
    ? []
    : [`${step.id} could not be judged: what is wrong with its front matter is among the findings`]),
  ...(step.status === 'approved' ? [] : [`${step.id} is not approved: its status is ${step.status}`]),
  ...step.approvals
    .filter((approval) => approval.state === 'lapsed')
    .map(
      (approval) =>
        `the approval of ${step.id} by ${approval.role} of ${approval.date} has lapsed: ${approval.changed.join(', ')} changed`,
    ),
  ...(step.status === 'approved' && step.missingRoles.length > 0
    ? [`${step.id} lacks the approval of ${step.missingRoles.join(' and ')}`]
    : []),
];

/**
 * Where a chain does not hold, in plain words, the claim first. A result that was repeated by one that passed breaks
 * nothing, and what accompanies the chain (reviews, changes, deviations) is not asked for its approvals.
 */
export const breaksOf = ({ claim, up, down, hasResult, mustAnswer }: Chain): readonly string[] => {
  const passed = new Set(
    [claim, ...down].filter((step) => step.standing?.state === 'passed').map((step) => step.id),
  );
  const isSettled = (step: VouchStep): boolean =>
    passed.has(step.id) || step.repeatedBy.some((id) => passed.has(id));
  const rests = ![claim, ...down].some((step) => hasResult(step.id));
  return [
    ...(claim.standing && claim.standing.state !== 'passed' ? [standsAs(claim)] : []),
    ...down
      .filter((step) => isLooseEnd(step) && !hasResult(step.id))
      .map((step) => `nothing shows ${step.id} below this: ${step.standing?.reason}`),
    // A claim without a standing of its own is as good as what is named to show it.
    ...(claim.standing
      ? []
      : down
          .filter(
            (step) =>
              step.depth === 1 &&
              step.standing &&
              !(isLooseEnd(step) && !hasResult(step.id)) &&
              !isSettled(step),
          )
          .map(standsAs)),
    ...(rests && !showsItself.has(claim.type) && !isExcused(claim)
      ? [`nothing measured or calculated shows ${claim.id} below this`]
      : []),
    ...(mustAnswer && up.length === 0
      ? [`nothing lies above ${claim.id}: it answers to no need, risk or requirement`]
      : []),
    ...[claim, ...down, ...up].filter(bears).flatMap(approvalBreaks),
  ];
};

/** A requirement that does not apply has nothing to show. */
const isExcused = (claim: VouchStep): boolean =>
  claim.facts.some(({ name, value }) => name === 'Applicable' && value === 'no');

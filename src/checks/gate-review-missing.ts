import { currentDesignPlans, decidedOn, gatesOf } from '../evidence/gates.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const gateReviewMissing = defineCheck({
  code: 'gate-review-missing',
  level: 'error',
  title: 'A later gate was passed before this one',
  basis: 'ISO 13485:2016 7.3.2 and 7.3.5',
  explain:
    'A design review passed a gate, and for an earlier gate of the same plan no review is recorded that passed it, or only one of a later day. Reviews are to be held at the planned stages; this one was left out, was held too late, or its record does not name the gate.\n\nEach stage rests on the one before. A review that was never held leaves a hole exactly where weak inputs get into the design.\n\nName the gate in the review that held it, or hold the review now and say in its text why it comes late. Where the stage fell away, take it out of the plan with the reason.',
  awaits: ['design-review'],
  awaitsAnywhere: true,
  examines: 'gates of design plans',
  subjects: ({ graph }) =>
    currentDesignPlans(graph).flatMap((plan) => {
      const gates = gatesOf(plan, graph);
      return gates.map((gate, at) => ({
        ...gate,
        later: gates.slice(at + 1).flatMap((each) => each.passedBy ?? []),
      }));
    }),
  judge: ({ plan, gate, index, passedOn, passedBy, later, mayBeMisnamed }) => {
    // A review that names no gate of the plan has a finding of its own.
    if (mayBeMisnamed) return [];
    const first = later.find((review) => passedOn === undefined || decidedOn(review) < passedOn);
    if (!first) return [];
    return [
      {
        place: placeOf(plan, 'stages', index, 'gate'),
        message:
          passedBy === undefined || passedOn === undefined
            ? `${plan.id}: no review passed gate ${gate.gate}, and ${first.id} passed ${first.fields.gate?.gate} on ${decidedOn(first)}`
            : `${plan.id}: gate ${gate.gate} was passed on ${passedOn} by ${passedBy.id}, after ${first.id} had passed ${first.fields.gate?.gate} on ${decidedOn(first)}`,
        hint: 'Name the gate in the review that held it, or hold the review and say why it comes late.',
        records: [plan.id, first.id, ...(passedBy ? [passedBy.id] : [])],
        related: [{ place: placeOf(first, 'gate'), message: `${first.id} passed the later gate` }],
      },
    ];
  },
});

import { currentDesignPlans, gatesOf } from '../evidence/gates.ts';
import { isRealDate } from '../records/calendar.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const gateOverdue = defineCheck({
  code: 'gate-overdue',
  level: 'warning',
  title: 'A gate of the design plan is overdue',
  basis: 'ISO 13485:2016 7.3.2',
  explain:
    'The day planned for a gate has passed, and no design review passed it. The standard asks that planning documents are kept and brought up to date as design and development go on; a plan that nobody follows is not one.\n\nWork that goes on past an open gate is work on inputs or outputs that nobody has accepted yet.\n\nHold the review and record its outcome under `gate`, or move the day in the plan: the old one goes to `planned_before`, with the reason.',
  awaits: ['design-review'],
  awaitsAnywhere: true,
  examines: 'gates of design plans',
  subjects: ({ graph }) => currentDesignPlans(graph).flatMap((plan) => gatesOf(plan, graph)),
  judge: ({ plan, gate, index, passedOn, reviews, mayBeMisnamed }, { asOf }) =>
    passedOn !== undefined || mayBeMisnamed || gate.planned >= asOf || !isRealDate(gate.planned)
      ? []
      : [
          {
            place: placeOf(plan, 'stages', index, 'gate', 'planned'),
            message: `${plan.id}: gate ${gate.gate} was planned for ${gate.planned} and is not passed on ${asOf}${reviews.length > 0 ? `; ${reviews.map((review) => review.id).join(', ')} did not pass it` : ''}`,
            hint: 'Hold the review and record its outcome under "gate", or move the day and keep the old one under "planned_before" with the reason.',
            records: [plan.id, ...reviews.map((review) => review.id)],
            data: { planned: gate.planned, as_of: asOf },
          },
        ],
});

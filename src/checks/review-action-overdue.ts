import { isRealDate } from '../records/calendar.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const reviewActionOverdue = defineCheck({
  code: 'review-action-overdue',
  level: 'warning',
  title: 'An action of a design review is overdue',
  basis: 'ISO 13485:2016 7.3.5',
  explain:
    'A design review decided on an action, its day has passed, and nothing says that it was closed. Reviews are to record the actions that are necessary; an action left open means that the stage was passed on a promise.\n\nWhat reviewers of a design ask for is often the very weakness that shows later in use.\n\nClose the action with its date under `closed` once it is done, or agree on a new day in a later review.',
  examines: 'actions of design reviews',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-review')
      .filter((review) => review.status !== 'retired')
      .flatMap((review) => (review.fields.actions ?? []).map((action, index) => ({ review, action, index }))),
  judge: ({ review, action, index }, { asOf }) =>
    action.closed !== undefined || action.due >= asOf || !isRealDate(action.due)
      ? []
      : [
          {
            place: placeOf(review, 'actions', index, 'due'),
            message: `${review.id}: the action "${action.action}" of ${action.owner} was due on ${action.due} and is open on ${asOf}`,
            hint: 'Add "closed" with the day, or agree on a new day in a later review.',
            records: [review.id],
            data: { due: action.due, as_of: asOf },
          },
        ],
});

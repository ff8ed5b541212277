import { requiredRoles } from '../graph/approvals.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const approvalBeforeReliedOn = defineCheck({
  code: 'approval-before-relied-on',
  level: 'warning',
  title: 'An approval relies on content that was approved only later',
  basis: 'ISO 13485:2016 4.2.4 a) (approval before issue); common practice for the order of the dates',
  explain:
    'An approval stores the digest of each record that it relied on. The first approval of that record with this very content, by a role that it needs, bears a later date. So either the approver relied on a draft, or a date is wrong, or the approval was written afterwards with an earlier date.\n\nWhoever signs a protocol before its design input has been approved cannot know that the input will stay as it is. And an approval that knows content of a later day looks back-dated, which an auditor takes for one of the gravest things that a file can show.\n\nCorrect the date if it is a slip. Otherwise approve again, in order: first what is relied on, then what relies on it. Nobody should change a date to make the order fit.',
  examines: 'approvals that name what they rely on',
  subjects: ({ approvals }) =>
    [...approvals.all.values()].flatMap(({ record, states }) =>
      record.status === 'retired'
        ? []
        : states
            .filter(({ approval }) => Object.keys(approval.relies_on ?? {}).length > 0)
            .map(({ approval, index }) => ({ record, approval, index })),
    ),
  judge: ({ record, approval, index }, { approvals, graph, project }) => {
    const later = Object.entries(approval.relies_on ?? {}).flatMap(([id, digest]) => {
      const required = requiredRoles(project.fields, graph.record(id)?.type ?? '');
      const dates = (approvals.of(id)?.states ?? [])
        .filter(
          (state) =>
            state.approval.digest === digest &&
            (required.length === 0 || required.includes(state.approval.role)),
        )
        .map((state) => state.approval.date)
        .sort();
      const [first] = dates;
      return first !== undefined && first > approval.date ? [{ id, first }] : [];
    });
    if (later.length === 0) return [];
    return [
      {
        place: placeOf(record, 'approvals', index, 'date'),
        message: `the approval of ${record.id} by ${approval.role} of ${approval.date} relies on content that was first approved later: ${later.map(({ id, first }) => `${id} on ${first}`).join(', ')}`,
        hint: 'Correct the date if it is a slip; otherwise approve again, what is relied on first.',
        records: [record.id, ...later.map(({ id }) => id)],
        related: later.flatMap(({ id, first }) => {
          const other = graph.record(id);
          return other
            ? [{ place: placeOf(other, 'approvals'), message: `${id} first approved on ${first}` }]
            : [];
        }),
        data: { approved: approval.date, later: later.map(({ id, first }) => `${id} ${first}`) },
      },
    ];
  },
});

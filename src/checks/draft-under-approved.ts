import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Links to records that may well be under work when the linking record is approved. */
const mayBeOpen: ReadonlySet<string> = new Set([
  'retests',
  'against',
  'reviewed',
  'affected',
  'decisions',
  'stages',
  'tables',
  'changed',
  'concerns',
  'submission',
]);

export const draftUnderApproved = defineCheck({
  code: 'draft-under-approved',
  level: 'error',
  title: 'An approved record rests on one that is not approved',
  basis: 'ISO 13485:2016 4.2.4 (review and approval before issue)',
  explain:
    'The record is approved, and what it links to is still a draft or in review. The approval speaks for something that can change tomorrow without anyone being asked: a protocol for an input that is not settled, a control shown by a protocol that nobody has agreed to.\n\nApprove the linked record first, then confirm the approval of this one. Reviews, deviations, design changes and design plans may name records that are under work. A record that reports a protocol which is not approved has a check of its own.',
  examines: 'links of approved records',
  subjects: ({ graph }) =>
    [...graph.records.values()]
      .filter((record) => record.status === 'approved')
      .flatMap((record) => graph.linksFrom(record.id))
      .filter((link) => !mayBeOpen.has(link.field) && link.field !== 'reports'),
  judge: (link, { graph }) => {
    const record = graph.record(link.from);
    const target = graph.record(link.to);
    if (!record || !target || (target.status !== 'draft' && target.status !== 'in review')) return [];
    const state = target.status === 'draft' ? 'a draft' : 'in review';
    return [
      {
        place: placeOf(record, ...link.path),
        message: `${link.from} is approved and ${link.relation} ${link.to}, which is ${state}`,
        hint: `Approve ${link.to}, or set ${link.from} back until it is.`,
        records: [link.from, link.to],
        related: [{ place: placeOf(target, 'status'), message: `${link.to} is ${state}` }],
        data: { field: link.field },
      },
    ];
  },
});

import { signedApprovals } from '../graph/signed-approvals.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Days between the date in an approval and its commit that need no word. */
const usualDays = 7;

const days = (from: string, to: string): number =>
  Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000);

export const approvalEnteredLater = defineCheck({
  code: 'approval-entered-later',
  level: 'warning',
  title: 'The date of an approval and the day of its commit lie apart',
  basis: '21 CFR 11.50 (date and time of the signature); common practice for the seven days',
  explain:
    'In signed mode the signed commit is the moment of the signature. The date written in the approval lies more than seven days before it, or after it. An approval that bears an earlier day than the one on which it was given is back-dated, which is one of the gravest things that an auditor can find.\n\nIf the approval was given on paper at the time and entered later, say so in its `meaning`, keep the paper, and have the finding waived with that reason. If the date is a slip, approve again with the right one.',
  examines: 'approvals by commits in signed mode',
  subjects: (context) =>
    signedApprovals(context).filter(({ signature }) => signature.commit !== undefined && !signature.isCut),
  judge: ({ record, state, signature }) => {
    const { role, name, date } = state.approval;
    const committed = signature.commit?.date ?? date;
    const apart = days(date, committed);
    if (Number.isNaN(apart) || (apart >= 0 && apart <= usualDays)) return [];
    return [
      {
        place: placeOf(record, 'approvals', state.index, 'date'),
        message: `the approval of ${record.id} by ${name} (${role}) is dated ${date}, its commit ${committed}: ${Math.abs(apart)} days ${apart > 0 ? 'later' : 'earlier'}`,
        hint: 'Approve again with the day on which the approval is given, or give the reason in a waiver.',
        records: [record.id],
        data: { dated: date, committed },
      },
    ];
  },
});

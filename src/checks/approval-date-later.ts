import type { Approval } from '../graph/approvals.ts';
import { isRealDate } from '../records/calendar.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const approvalDateLater = defineCheck({
  code: 'approval-date-later',
  level: 'warning',
  title: 'An approval is dated in the future',
  basis: 'common practice, no source',
  explain:
    'The day of the approval lies after the day for which the file is checked (today, unless plinth.yaml or the command gives another one). A signature cannot be given ahead.\n\nMostly it is a slip in the year or month. But dates carry the proof that protocols were approved before the data came in, so a reviewer who finds one impossible date doubts the others.\n\nCorrect the date; it is not part of the approved content. If the file is to be checked as of an earlier day on purpose, the warning says rightly that the approval did not exist yet.',
  examines: 'approvals',
  subjects: ({ graph }) =>
    [...graph.records.values()]
      .filter((record) => record.sound && record.status !== 'retired')
      .flatMap((record) =>
        ((record.fields['approvals'] ?? []) as readonly Approval[]).map((approval, index) => ({
          record,
          approval,
          index,
        })),
      ),
  judge: ({ record, approval, index }, { asOf }) =>
    approval.date <= asOf || !isRealDate(approval.date)
      ? []
      : [
          {
            place: placeOf(record, 'approvals', index, 'date'),
            message: `the approval of ${record.id} by ${approval.role} is dated ${approval.date}, after ${asOf}`,
            hint: 'Correct the date of the approval, or check the file as of a later day.',
            records: [record.id],
            data: { date: approval.date, as_of: asOf },
          },
        ],
});

import type { ApprovalPlan, ApprovalWish } from '../graph/plan-approvals.ts';
import type { Analysis } from '../pipeline.ts';
import { printable } from '../writers/report-text/printable.ts';
import { changesSince } from './approval-changes.ts';
import type { ApprovedFile } from './approved-files.ts';
import { lineDifferences } from './line-differences.ts';
import { wrap } from './wrap.ts';

const shortDigest = (digest: string): string => digest.slice(0, 12);

/** What was signed, record by record; in a dry run with the lines that would be written. */
export const approvalReport = (
  { planned, inForce }: ApprovalPlan,
  files: readonly ApprovedFile[],
  wish: ApprovalWish,
  analysis: Analysis,
  width: number,
  isDryRun: boolean,
): string => {
  const line = (text: string, indent = '  '): string =>
    `${wrap(printable(text), width, `${indent}  `, indent)}\n`;
  const parts = planned.map((each, index) => {
    const { record, digest, reliesOn, replaces, stillOpen } = each;
    const file = files[index];
    const relied = Object.entries(reliesOn).map(([id, of]) => `${id} ${shortDigest(of)}`);
    return [
      line(`${record.id} ${record.title}`, ''),
      line(`${wish.meaning}: ${wish.name}, ${wish.role}, ${wish.date}`),
      line(`digest ${shortDigest(digest)}`),
      ...(relied.length > 0 ? [line(`relies on ${relied.join(', ')}`)] : []),
      ...(replaces ? changesSince(each, analysis).map((text) => line(text)) : []),
      ...(stillOpen.length > 0 ? [line(`still to approve: ${stillOpen.join(', ')}`)] : []),
      ...(file?.status ? [line(`status: ${record.status} → ${file.status}`)] : []),
      ...(isDryRun && file
        ? lineDifferences(file.before, file.after).map((text) => `    ${printable(text)}\n`)
        : []),
    ].join('');
  });
  const already = inForce.map(({ id, date }) =>
    line(`${id} is approved already: the approval by ${wish.role} of ${date} is in force`, ''),
  );
  const count = `${planned.length} ${planned.length === 1 ? 'record' : 'records'}`;
  return [
    ...parts,
    ...already,
    planned.length === 0
      ? 'Nothing was left to approve.'
      : isDryRun
        ? `Dry run: nothing was written; ${count} would be approved.`
        : `Approved ${count}.`,
  ]
    .join('\n')
    .concat('\n');
};

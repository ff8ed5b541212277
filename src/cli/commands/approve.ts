import { join } from 'node:path';
import type { Finding } from '../../findings/finding.ts';
import {
  type ApprovalWish,
  type Objection,
  type PlannedApproval,
  planApprovals,
} from '../../graph/plan-approvals.ts';
import { replaceTogether } from '../../host/write-files.ts';
import { type Analysis, analyse, type Inputs } from '../../pipeline.ts';
import { printable } from '../../writers/report-text/printable.ts';
import { analyseWithHistory } from '../analyse-with-history.ts';
import { technicalEffects } from '../approval-changes.ts';
import { approvalReport } from '../approval-report.ts';
import { wishOf } from '../approval-wish.ts';
import { type ApprovedFile, approvedFile } from '../approved-files.ts';
import type { CommandRun } from '../command.ts';
import { documentsOf, foundInDocuments } from '../documents.ts';
import { Refusal } from '../refusal.ts';
import { findFolder, readInputs } from '../technical-file.ts';

export const run: CommandRun = async (request, terminal) => {
  const folder = findFolder(request.options['in'], terminal);
  const inputs = readInputs(folder, request, terminal);
  const analysis = analyseWithHistory(inputs, { folder: folder.path });
  terminal.progress('');
  const wish = wishOf(request, analysis, inputs.today);
  const plan = planApprovals({ ...analysis, project: analysis.project.fields }, wish);
  refuseAll([
    ...plan.objections,
    ...(wish.noTechnicalEffect === undefined ? [] : technicalEffects(plan.planned, analysis)),
  ]);
  const files = editedFiles(plan.planned, wish, analysis, request.switches.has('keep-status'));
  const accepted = new Set((request.options['despite'] ?? '').split(',').map((code) => code.trim()));
  if (files.length > 0) await verify(plan.planned, files, inputs, accepted);
  const isDryRun = request.switches.has('dry-run');
  if (!isDryRun) write(files, folder.path);
  terminal.out(approvalReport(plan, files, wish, analysis, terminal.width, isDryRun));
  return 0;
};

const editedFiles = (
  planned: readonly PlannedApproval[],
  wish: ApprovalWish,
  { files }: Analysis,
  keepStatus: boolean,
): readonly ApprovedFile[] => {
  const edited: ApprovedFile[] = [];
  const objections: Objection[] = [];
  for (const each of planned) {
    const file = files.get(each.record.file);
    if (!file) throw new Error(`the file of ${each.record.id} is gone`);
    const outcome = approvedFile(each, wish, file, keepStatus);
    if (outcome.ok) edited.push(outcome.file);
    else
      objections.push({
        reason: `${each.record.file} cannot be edited: ${outcome.reason}`,
        hint: 'Write "approvals:" as a list with one line for each field, then try again.',
      });
  }
  refuseAll(objections);
  return edited;
};

/**
 * Errors that do not speak against the record itself: other roles must approve yet, or what answers the record has yet
 * to follow. A need is approved before inputs derive from it, and a failure before it is resolved.
 */
const settledLater: ReadonlySet<string> = new Set([
  'approval-missing',
  'approval-lapsed',
  'approval-without-reliance',
  'need-without-input',
  'input-without-output',
  'input-without-verification',
  'limit-untested',
  'requirement-without-evidence',
  'risk-control-not-implemented',
  'risk-control-not-verified',
  'residual-risk-not-accepted',
  'disclosed-risk-missing',
  'decided-repeat-missing',
  'failed-verification-unresolved',
]);

/** Analyses the file as it would be: each approval must be in force, and nothing else may have changed. */
const verify = async (
  planned: readonly PlannedApproval[],
  files: readonly ApprovedFile[],
  inputs: Inputs,
  accepted: ReadonlySet<string>,
): Promise<void> => {
  const edited = new Map(files.map(({ path, after }) => [path, new TextEncoder().encode(after)]));
  const result = analyse({
    ...inputs,
    files: inputs.files.map((file) => ({ ...file, bytes: edited.get(file.path) ?? file.bytes })),
  });
  for (const { record, digest } of planned) {
    const states = result.approvals.of(record.id)?.states ?? [];
    if (result.approvals.digests.get(record.id) !== digest || states.at(-1)?.state !== 'in force')
      throw new Error(`the approval of ${record.id} would not be in force after it was written`);
  }
  const ids = new Set(planned.map(({ record }) => record.id));
  const inDocuments = planned.some(({ record }) => record.type === 'document')
    ? await foundInDocuments(result, await documentsOf(result))
    : [];
  const faults = [...result.findings, ...inDocuments].filter(
    ({ level, code, records: [main] }) =>
      level === 'error' && main !== undefined && ids.has(main) && !settledLater.has(code),
  );
  const open = faults.filter(({ code }) => !accepted.has(code));
  refuseAll(open.map((fault) => objectionOf(fault, [...new Set(faults.map(({ code }) => code))])));
};

const objectionOf = ({ code, message }: Finding, codes: readonly string[]): Objection => ({
  reason: `${message} (${code})`,
  hint: `Mend it first, or sign knowing of it: --despite ${codes.join(',')}`,
});

const write = (files: readonly ApprovedFile[], folder: string): void => {
  const encoder = new TextEncoder();
  const changed = replaceTogether(
    files.map(({ path, before, after }) => ({
      path: join(folder, path),
      before: encoder.encode(before),
      after: encoder.encode(after),
    })),
  );
  if (changed !== undefined)
    throw new Refusal(
      'a record changed while it was being approved, and nothing was written',
      'Look at the record again, then approve it.',
    );
};

const mostObjections = 10;

const refuseAll = (objections: readonly Objection[]): void => {
  const [first] = objections;
  if (!first) return;
  const shown = objections.slice(0, mostObjections).map(({ reason }) => printable(reason));
  const more = objections.length - shown.length;
  const hints = [...new Set(objections.map(({ hint }) => printable(hint)))].slice(0, mostObjections);
  throw new Refusal(
    shown.length === 1
      ? `nothing was approved: ${shown[0]}`
      : `nothing was approved:\n${shown.map((reason) => `- ${reason}`).join('\n')}${more > 0 ? `\n- and ${more} more` : ''}`,
    hints.join('\n'),
  );
};

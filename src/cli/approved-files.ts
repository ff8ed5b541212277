import type { ApprovalWish, PlannedApproval } from '../graph/plan-approvals.ts';
import { appendEntry, type EditOutcome, type ListEntry, setField } from '../records/edit-front-matter.ts';
import type { SourceFile } from '../records/source-file.ts';

/** A record's file with its new approval. */
export interface ApprovedFile {
  readonly path: string;
  readonly before: string;
  readonly after: string;
  /** Status that was set, where it was another one. */
  readonly status?: string;
}

export type ApprovedFileOutcome =
  | { readonly ok: true; readonly file: ApprovedFile }
  | { readonly ok: false; readonly reason: string };

const entryOf = (planned: PlannedApproval, wish: ApprovalWish): ListEntry => ({
  role: wish.role,
  name: wish.name,
  meaning: wish.meaning,
  date: wish.date,
  digest: planned.digest,
  ...(Object.keys(planned.reliesOn).length > 0 ? { relies_on: planned.reliesOn } : {}),
  ...(wish.noTechnicalEffect === undefined ? {} : { no_technical_effect: wish.noTechnicalEffect }),
});

/** Writes an approval into the text of its record, and the status `approved` where all roles have approved then. */
export const approvedFile = (
  planned: PlannedApproval,
  wish: ApprovalWish,
  file: SourceFile,
  keepStatus: boolean,
): ApprovedFileOutcome => {
  const before = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(file.bytes);
  const setsStatus = !keepStatus && planned.stillOpen.length === 0 && planned.record.status !== 'approved';
  const appended = appendEntry(before, 'approvals', entryOf(planned, wish));
  const edited: EditOutcome =
    appended.ok && setsStatus ? setField(appended.text, 'status', 'approved') : appended;
  return edited.ok
    ? {
        ok: true,
        file: {
          path: file.path,
          before,
          after: edited.text,
          ...(setsStatus ? { status: 'approved' } : {}),
        },
      }
    : edited;
};

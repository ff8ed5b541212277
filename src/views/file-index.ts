import type { Block, Cell } from '../document/model.ts';
import type { RecordApprovals } from '../graph/approvals.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { cell, nothing, notice, reference, text } from './cells.ts';
import { type CommonOptions, isShown, type View, type ViewContext } from './view.ts';

/** The day on which each role that has approved had done so for the first time. */
const firstApproved = ({ states }: RecordApprovals): string | undefined => {
  const first = new Map<string, string>();
  for (const { approval } of states) {
    const known = first.get(approval.role);
    if (known === undefined || approval.date < known) first.set(approval.role, approval.date);
  }
  return [...first.values()].sort().at(-1);
};

const approvalWords = (record: TechnicalRecord, { approvals }: ViewContext) => {
  const state = approvals.of(record.id);
  if (!state || state.states.length === 0) return nothing('not approved');
  if (state.inForce) {
    const latest = state.states
      .filter((each) => each.state === 'in force')
      .map((each) => each.approval.date)
      .sort()
      .at(-1);
    const first = firstApproved(state);
    return text(`in force, ${latest ?? ''}${first === latest ? '' : `, first ${first ?? ''}`}`);
  }
  return state.changed.length > 0
    ? text(`lapsed: ${state.changed.join(', ')} changed`, {
        tone: 'bad',
        bold: true,
      })
    : text(`${state.missingRoles.join(', ')} has not signed`, {
        tone: 'caution',
        bold: true,
      });
};

/** What a record states in a field, else a dash. */
const stated = (record: TechnicalRecord, field: string): Cell => {
  const value = record.sound ? record.fields[field] : undefined;
  return cell(value === undefined ? nothing('–') : text(String(value)));
};

const draw: View['draw'] = (body, context) => {
  const options = body as CommonOptions;
  const level = Math.min(6, context.enclosingLevel + 1) as 1 | 2 | 3 | 4 | 5 | 6;
  const blocks: Block[] = [];
  for (const type of context.graph.types.values()) {
    const records = [...context.graph.records.values()].filter(
      (record) => record.type === type.type && isShown(record, options),
    );
    if (records.length === 0) continue;
    const isDocument = type.type === 'document';
    blocks.push({ kind: 'heading', level, children: [text(type.plural)] });
    blocks.push({
      kind: 'table',
      columns: [
        { title: 'Id', width: 14 },
        // Covers and running heads carry these, so a reader of paper looks for them.
        ...(isDocument
          ? [
              { title: 'Number', width: 19 },
              { title: 'Revision', width: 11 },
            ]
          : []),
        { title: 'Title', width: isDocument ? 32 : 40 },
        { title: 'Status', width: 12 },
        { title: 'Approval', width: 22 },
        { title: 'File', width: isDocument ? 25 : 30 },
      ],
      rows: records.map((record) => ({
        recordId: record.id,
        cells: [
          cell(reference(record.id)),
          ...(isDocument ? [stated(record, 'number'), stated(record, 'revision')] : []),
          cell(text(record.title)),
          cell(text(record.status)),
          cell(approvalWords(record, context)),
          cell(text(record.file)),
        ],
      })),
      description: `${type.plural}: where each record lies, its status and its approval.`,
    });
  }
  return {
    blocks: blocks.length > 0 ? blocks : [notice('There are no records yet.')],
  };
};

export const fileIndex: View = { name: 'file-index', draw, namesOnly: true };

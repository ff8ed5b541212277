import type { Block } from '../document/model.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { cell, nothing, notice, reference, text } from './cells.ts';
import { type CommonOptions, isShown, type View, type ViewContext } from './view.ts';

const approvalWords = (record: TechnicalRecord, { approvals }: ViewContext) => {
  const state = approvals.of(record.id);
  if (!state || state.states.length === 0) return nothing('not approved');
  if (state.inForce)
    return text(
      `in force, ${
        state.states
          .filter((each) => each.state === 'in force')
          .map((each) => each.approval.date)
          .sort()
          .at(-1) ?? ''
      }`,
    );
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

const draw: View['draw'] = (body, context) => {
  const options = body as CommonOptions;
  const level = Math.min(6, context.enclosingLevel + 1) as 1 | 2 | 3 | 4 | 5 | 6;
  const blocks: Block[] = [];
  for (const type of context.graph.types.values()) {
    const records = [...context.graph.records.values()].filter(
      (record) => record.type === type.type && isShown(record, options),
    );
    if (records.length === 0) continue;
    blocks.push({ kind: 'heading', level, children: [text(type.plural)] });
    blocks.push({
      kind: 'table',
      columns: [
        { title: 'Id', width: 14 },
        { title: 'Title', width: 40 },
        { title: 'Status', width: 12 },
        { title: 'Approval', width: 22 },
        { title: 'File', width: 30 },
      ],
      rows: records.map((record) => ({
        recordId: record.id,
        cells: [
          cell(reference(record.id)),
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

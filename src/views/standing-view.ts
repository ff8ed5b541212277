import type { Table } from '../document/model.ts';
import { cell, notice, standingText, text } from './cells.ts';
import { type CommonOptions, captionOf, type View } from './view.ts';

const states = ['passed', 'planned', 'unplanned', 'in doubt', 'failed'] as const;

const draw: View['draw'] = (body, { graph, standing }) => {
  const options = body as CommonOptions;
  const types = ['user-need', 'design-input', 'risk', 'risk-control'].flatMap(
    (name) => graph.types.get(name) ?? [],
  );
  const rows = types.flatMap((type) => {
    const own = [...standing].filter(([id]) => graph.record(id)?.type === type.type);
    if (own.length === 0) return [];
    return [
      {
        cells: [
          cell(text(type.plural)),
          cell(text(String(own.length))),
          ...states.map((state) => cell(text(String(own.filter(([, each]) => each.state === state).length)))),
        ],
      },
    ];
  });
  if (rows.length === 0) return { blocks: [notice('Nothing has a standing yet.')] };
  const open = [...standing].filter(
    ([id, each]) => each.state !== 'passed' && types.some((type) => type.type === graph.record(id)?.type),
  );
  const table: Table = {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: 'Records', width: 30 },
      { title: 'All', width: 10, align: 'right' },
      ...states.map((state) => ({
        title: state,
        width: 12,
        align: 'right' as const,
      })),
    ],
    rows,
    description: 'How many records of each type are shown by data, planned, or in doubt.',
  };
  if (open.length === 0) return { blocks: [table] };
  const list: Table = {
    kind: 'table',
    columns: [
      { title: 'Not shown', width: 30 },
      { title: 'Standing', width: 14 },
      { title: 'Why', width: 56 },
    ],
    rows: open.map(([id, each]) => ({
      cells: [
        cell({ kind: 'record-reference', id }, text(` ${graph.record(id)?.title ?? ''}`)),
        cell(standingText(each.state)),
        cell(text(`${each.reason} (${each.because.join(' → ')})`)),
      ],
    })),
    description: 'What is not shown, and why.',
  };
  return { blocks: [table, list] };
};

export const standingView: View = { name: 'standing', draw };

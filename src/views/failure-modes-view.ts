import type { Table } from '../document/model.ts';
import { cell, nothing, notice, onLines, reference, text } from './cells.ts';
import { idList } from './risk-words.ts';
import { type CommonOptions, captionOf, isShown, type View } from './view.ts';

const draw: View['draw'] = (body, { graph }) => {
  const options = body as CommonOptions;
  const tables = graph.recordsOf('failure-modes').filter((record) => isShown(record, options));
  const modes = tables.flatMap((record) => record.fields.modes.map((mode) => ({ record, mode })));
  if (modes.length === 0) return { blocks: [notice('There are no failure modes yet.')] };
  const table: Table = {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: 'Item', width: 17 },
      { title: 'Function', width: 20 },
      { title: 'Failure mode', width: 20 },
      { title: 'Cause', width: 22 },
      { title: 'Effect', width: 26 },
      { title: 'Risks, or why no harm', width: 22 },
    ],
    rows: modes.map(({ mode }) => {
      const output = mode.output === undefined ? undefined : graph.recordOf('design-output', mode.output);
      return {
        cells: [
          cell(
            ...(mode.output === undefined
              ? [mode.item === undefined ? nothing('no item') : text(mode.item)]
              : onLines([[reference(mode.output)], [text(mode.item ?? output?.title ?? '')]])),
          ),
          cell(text(mode.function)),
          cell(text(mode.failure_mode)),
          cell(text(mode.cause)),
          cell(text(mode.effect)),
          cell(
            ...((mode.risks ?? []).length > 0
              ? idList(mode.risks ?? [])
              : [mode.no_harm === undefined ? nothing('not argued') : text(`No harm: ${mode.no_harm}`)]),
          ),
        ],
      };
    }),
    description:
      'Each failure mode of an item with its function, cause and effect, and the risks that it leads to or the reason why no harm can follow.',
  };
  return {
    blocks: [
      ...tables.flatMap((record) =>
        record.fields.scope === undefined
          ? []
          : [
              {
                kind: 'paragraph' as const,
                children: [reference(record.id), text(`, scope: ${record.fields.scope}`)],
              },
            ],
      ),
      table,
    ],
  };
};

export const failureModesView: View = { name: 'failure-modes', draw };

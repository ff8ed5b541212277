import type { Inline } from '../document/model.ts';
import { cell, nothing, notice, onLines, reference, text } from './cells.ts';
import { type CommonOptions, captionOf, isShown, type View } from './view.ts';

/** Every failure mode with cause, effect and the risks that it feeds. */
export const failureModesView: View = {
  name: 'failure-modes',
  draw: (body, { graph }) => {
    const options = body as CommonOptions;
    const modes = graph
      .recordsOf('failure-modes')
      .filter((record) => isShown(record, options))
      .flatMap((record) => record.fields.modes.map((mode, index) => ({ record, mode, index })));
    if (modes.length === 0) return { blocks: [notice('There is no failure mode table yet.')] };
    const consequence = (risks: readonly string[], noHarm: string | undefined): readonly Inline[] => {
      const lines: (readonly Inline[])[] = risks.map((id) => {
        const risk = graph.recordOf('risk', id);
        return [reference(id), text(risk ? ` ${risk.title}, severity ${risk.fields.severity}` : '')];
      });
      if (noHarm !== undefined) lines.push([text(`no harm: ${noHarm}`)]);
      return lines.length > 0 ? onLines(lines) : [nothing('neither risk nor reason')];
    };
    return {
      blocks: [
        {
          kind: 'table',
          ...captionOf(options),
          columns: [
            { title: 'Item', width: 14 },
            { title: 'Function', width: 18 },
            { title: 'Failure mode', width: 18 },
            { title: 'Cause', width: 20 },
            { title: 'Effect', width: 22 },
            { title: 'Risks', width: 24 },
          ],
          rows: modes.map(({ record, mode, index }) => ({
            ...(index === 0 ? { recordId: record.id } : {}),
            cells: [
              cell(
                ...(mode.output === undefined
                  ? [mode.item === undefined ? nothing('no item') : text(mode.item)]
                  : onLines([
                      [reference(mode.output)],
                      [text(graph.record(mode.output)?.title ?? mode.item ?? '')],
                    ])),
              ),
              cell(text(mode.function)),
              cell(text(mode.failure_mode)),
              cell(text(mode.cause)),
              cell(text(mode.effect)),
              cell(...consequence(mode.risks ?? [], mode.no_harm)),
            ],
          })),
          description:
            'Each row is one failure mode: item, function, mode, cause and effect, with the risks in which severity and probability of harm are estimated.',
        },
      ],
    };
  },
};

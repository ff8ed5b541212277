import type { Table } from '../document/model.ts';
import { cell, nothing, notice, onLines, reference, text } from './cells.ts';
import { residualWords } from './risk-words.ts';
import { type CommonOptions, captionOf, isShown, type View } from './view.ts';

const draw: View['draw'] = (body, context) => {
  const options = body as CommonOptions;
  const told = context.graph
    .recordsOf('risk')
    .filter((risk) => isShown(risk, options) && risk.fields.disclosed === true);
  if (told.length === 0)
    return { blocks: [notice('No residual risk is marked as one that users are told of.')] };
  const instructions = context.graph
    .recordsOf('design-output')
    .filter((output) => output.status !== 'retired' && output.fields.kind === 'instructions for use');
  const table: Table = {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: 'Risk', width: 24 },
      { title: 'Harm', width: 20 },
      { title: 'Residual risk', width: 16 },
      { title: 'Wording in the instructions for use', width: 40 },
      { title: 'Where', width: 12 },
    ],
    rows: told.map((risk) => {
      const found = instructions.flatMap((output) =>
        (output.fields.discloses ?? [])
          .filter((entry) => entry.risk === risk.id)
          .map((entry) => ({ output, statement: entry.statement })),
      );
      return {
        recordId: risk.id,
        cells: [
          cell(...onLines([[reference(risk.id)], [text(risk.title)]])),
          cell(text(risk.fields.harm)),
          cell(...residualWords(risk, context)),
          cell(
            ...(found.length === 0
              ? [text('not in the instructions for use', { tone: 'bad', bold: true })]
              : onLines(found.map(({ statement }) => [text(statement)]))),
          ),
          cell(
            ...(found.length === 0
              ? [nothing()]
              : onLines(
                  found.map(({ output }) => [
                    reference(output.id),
                    text(output.fields.revision === undefined ? '' : `, revision ${output.fields.revision}`),
                  ]),
                )),
          ),
        ],
      };
    }),
    description: 'Each residual risk that users are told of, with the wording of the instructions for use.',
  };
  return { blocks: [table] };
};

export const residualRisks: View = { name: 'residual-risks', draw };

import type { Table } from '../document/model.ts';
import { cell, nothing, notice, onLines, reference, spanning, text } from './cells.ts';
import { controlsOf, effectWords, idList, inPlaceWords } from './risk-words.ts';
import { type CommonOptions, captionOf, isShown, type View } from './view.ts';

const draw: View['draw'] = (body, context) => {
  const options = body as CommonOptions;
  const risks = context.graph.recordsOf('risk').filter((risk) => isShown(risk, options));
  if (risks.length === 0) return { blocks: [notice('There are no risks yet.')] };
  const table: Table = {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: 'Risk', width: 18 },
      { title: 'Control', width: 18 },
      { title: 'Option, and why none of higher order', width: 27 },
      { title: 'In place', width: 30 },
      { title: 'Shown to work by', width: 20 },
      { title: 'Risks that it brings', width: 18 },
      { title: 'Further reduction of the risk', width: 24 },
    ],
    rows: risks.flatMap((risk) => {
      const controls = controlsOf(risk, context);
      const span = Math.max(1, controls.length);
      const first = spanning(span, ...onLines([[reference(risk.id)], [text(risk.title)]]));
      const last = spanning(
        span,
        risk.fields.alarp === undefined ? nothing('not argued') : text(risk.fields.alarp),
      );
      if (controls.length === 0)
        return [
          {
            recordId: risk.id,
            cells: [first, ...Array.from({ length: 5 }, () => cell(nothing('no control'))), last],
          },
        ];
      return controls.map((control, index) => {
        const { option, option_reason, new_risks } = control.fields;
        const middle = [
          cell(...onLines([[reference(control.id)], [text(control.title)]])),
          cell(
            ...onLines([
              [text(option, { bold: true })],
              ...(option_reason === undefined
                ? option === 'inherently safe design'
                  ? []
                  : [[nothing('no reason given')]]
                : [[text(option_reason)]]),
            ]),
          ),
          cell(...inPlaceWords(control, true)),
          cell(...effectWords(control, context)),
          cell(
            ...(new_risks
              ? onLines([[text(new_risks.answer)], ...(new_risks.risks ? [idList(new_risks.risks)] : [])])
              : [nothing('not answered')]),
          ),
        ];
        return { recordId: control.id, cells: index === 0 ? [first, ...middle, last] : middle };
      });
    }),
    description:
      'Each risk with its controls in the order of priority: the reason for a later option, where the control is in place, what shows that it works, what risks it brings, and why the risk is not reduced further.',
  };
  return { blocks: [table] };
};

export const controlOptions: View = { name: 'control-options', draw };

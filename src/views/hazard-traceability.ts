import type { Row, Table } from '../document/model.ts';
import type { RecordOf } from '../records/record.ts';
import { cell, nothing, notice, onLines, reference, spanning, text } from './cells.ts';
import { controlsOf, effectWords, evaluationWords, inPlaceWords, residualWords } from './risk-words.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

type Risk = RecordOf<'risk'>;

/** Risks by their hazard, as written but for letter case and blanks, hazards in the order of their first risk. */
const byHazard = (risks: readonly Risk[]): readonly (readonly [string, readonly Risk[]])[] => {
  const groups = new Map<string, { readonly name: string; readonly risks: Risk[] }>();
  for (const risk of risks) {
    const name = risk.fields.hazard.trim().replace(/\s+/g, ' ');
    const known = groups.get(name.toLowerCase());
    if (known) known.risks.push(risk);
    else groups.set(name.toLowerCase(), { name, risks: [risk] });
  }
  return [...groups.values()].map((group) => [group.name, group.risks]);
};

const rowsOfRisk = (risk: Risk, context: ViewContext): readonly Row[] => {
  const controls = controlsOf(risk, context);
  const span = Math.max(1, controls.length);
  const start = [
    spanning(
      span,
      ...onLines([
        [reference(risk.id)],
        [text(risk.fields.hazardous_situation)],
        [text('harm: ', { tone: 'quiet' }), text(risk.fields.harm)],
      ]),
    ),
    spanning(span, ...evaluationWords(risk, 'before', context)),
  ];
  const end = [spanning(span, ...residualWords(risk, context))];
  if (controls.length === 0)
    return [
      {
        recordId: risk.id,
        cells: [...start, ...Array.from({ length: 3 }, () => cell(nothing('no control'))), ...end],
      },
    ];
  return controls.map((control, index) => {
    const middle = [
      cell(
        ...onLines([
          [reference(control.id), text(` ${control.title}`)],
          [text(control.fields.option, { tone: 'quiet' })],
        ]),
      ),
      cell(...inPlaceWords(control)),
      cell(...effectWords(control, context)),
    ];
    return index === 0 ? { recordId: risk.id, cells: [...start, ...middle, ...end] } : { cells: middle };
  });
};

const draw: View['draw'] = (body, context) => {
  const options = body as CommonOptions;
  const risks = context.graph.recordsOf('risk').filter((risk) => isShown(risk, options));
  if (risks.length === 0) return { blocks: [notice('There are no risks yet.')] };
  const table: Table = {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: 'Hazard', width: 15 },
      { title: 'Analysis: hazardous situation and harm', width: 29 },
      { title: 'Evaluation before control', width: 15 },
      { title: 'Control', width: 23 },
      { title: 'In place', width: 20 },
      { title: 'Shown to work by', width: 23 },
      { title: 'Residual risk', width: 17 },
    ],
    rows: byHazard(risks).flatMap(([hazard, own]) => {
      const rows = own.flatMap((risk) => rowsOfRisk(risk, context));
      return rows.map((row, index) =>
        index === 0
          ? { ...row, cells: [spanning(rows.length, text(hazard, { bold: true })), ...row.cells] }
          : row,
      );
    }),
    description:
      'For each hazard: the analysis of its risks, their evaluation, the controls with the verification that they are in place and that they work, and the evaluation of the residual risk.',
  };
  return { blocks: [table] };
};

export const hazardTraceability: View = { name: 'hazard-traceability', draw };

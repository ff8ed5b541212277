import type { Inline, Table } from '../document/model.ts';
import { estimateRisk, type StatedEstimate } from '../evidence/risk-estimate.ts';
import type { RecordOf } from '../records/record.ts';
import { cell, nothing, notice, onLines, orNothing, reference, standingText, text } from './cells.ts';
import { probabilityWords } from './probability-words.ts';
import { countsOnWords, idList } from './risk-words.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

type Risk = RecordOf<'risk'>;

const estimateWords = (risk: Risk, when: 'before' | 'after', { project }: ViewContext): readonly Inline[] => {
  const criteria = project.fields.risk;
  const fields: StatedEstimate = risk.fields[when];
  const estimate = criteria ? estimateRisk(risk.fields.severity, fields, criteria) : undefined;
  const severity =
    fields.severity === undefined ? [] : [[text(`severity ${fields.severity}`, { bold: true })]];
  if (fields.p1 === undefined || fields.p2 === undefined)
    return onLines([
      [text('not estimable', { bold: true })],
      ...severity,
      [text(fields.not_estimable ?? '', { tone: 'quiet' })],
    ]);
  const { p1, p2 } = fields;
  const written = (name: 'p1' | 'p2', value: number): string =>
    probabilityWords(value, risk.yaml.written([when, name]) ?? String(value));
  return onLines([
    [text(estimate?.kind === 'by probability' ? estimate.band : 'no band', { bold: true })],
    ...severity,
    [text(`P1 ${written('p1', p1)}`)],
    [text(`P2 ${written('p2', p2)}`)],
  ]);
};

const outcomeWords = (risk: Risk, context: ViewContext): readonly Inline[] => {
  const { project, graph } = context;
  const criteria = project.fields.risk;
  const estimate = criteria ? estimateRisk(risk.fields.severity, risk.fields.after, criteria) : undefined;
  if (!estimate) return [nothing('no criteria')];
  const open = countsOnWords(risk, context);
  return onLines([
    [
      estimate.acceptable
        ? text('within the criteria', { tone: 'good', bold: true })
        : text('not within the criteria', { tone: 'bad', bold: true }),
    ],
    ...(open.length === 0 ? [] : [open]),
    ...graph
      .sources(risk.id, 'decides', 'benefit-risk')
      .map((decision): readonly Inline[] => [reference(decision.id), text(`: ${decision.fields.decision}`)]),
    ...(risk.fields.disclosed ? [[text('disclosed in the instructions', { tone: 'quiet' as const })]] : []),
  ]);
};

const controlWords = (risk: Risk, { graph, standing }: ViewContext): readonly Inline[] =>
  onLines(
    graph.sources(risk.id, 'controls', 'risk-control').flatMap((control): readonly (readonly Inline[])[] => [
      [reference(control.id), text(` ${control.title} (${control.fields.option})`)],
      [text('in place by ', { tone: 'quiet' }), ...idList(control.fields.implemented_by ?? [])],
      [text('seen in ', { tone: 'quiet' }), ...idList(control.fields.in_place?.seen_in ?? [])],
      [
        text('shown by ', { tone: 'quiet' }),
        ...idList(control.fields.shown_by ?? []),
        text(': '),
        standingText(standing.get(control.id)?.state ?? 'unplanned'),
      ],
    ]),
  );

const draw: View['draw'] = (body, context) => {
  const options = body as CommonOptions;
  const risks = context.graph.recordsOf('risk').filter((risk) => isShown(risk, options));
  if (risks.length === 0) return { blocks: [notice('There are no risks yet.')] };
  const names = new Map(
    (context.project.fields.risk?.severities ?? []).map((severity) => [severity.class, severity.name]),
  );
  const table: Table = {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: 'Risk', width: 17 },
      { title: 'Hazard, sequence and hazardous situation', width: 27 },
      { title: 'Harm and severity', width: 15 },
      { title: 'Before', width: 10 },
      { title: 'Controls, where they are in place, and what shows them', width: 38 },
      { title: 'After', width: 10 },
      { title: 'Residual risk', width: 17 },
    ],
    rows: risks.map((risk) => ({
      recordId: risk.id,
      cells: [
        cell(...onLines([[reference(risk.id)], [text(risk.title)]])),
        cell(
          ...onLines([
            [text(risk.fields.hazard, { bold: true })],
            [text(risk.fields.sequence)],
            [text(risk.fields.hazardous_situation)],
          ]),
        ),
        cell(
          ...onLines([
            [text(risk.fields.harm)],
            [
              text(risk.fields.severity, { bold: true }),
              text(names.has(risk.fields.severity) ? ` ${names.get(risk.fields.severity)}` : ''),
            ],
          ]),
        ),
        cell(...estimateWords(risk, 'before', context)),
        cell(...orNothing(controlWords(risk, context))),
        cell(...estimateWords(risk, 'after', context)),
        cell(...outcomeWords(risk, context)),
      ],
    })),
    description:
      'Each row is one risk: from hazard to harm, the estimate before control, the controls with their standing, and the estimate after control.',
  };
  return { blocks: [table] };
};

export const riskTable: View = { name: 'risk-table', draw };

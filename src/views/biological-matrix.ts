import type { Block, Cell, Inline, Table } from '../document/model.ts';
import {
  type AddressedEndpoint,
  addressing,
  type ContactGroup,
  type Evaluation,
  evaluations,
  hasContact,
} from '../evidence/biological-contact.ts';
import { endpointRow, endpointSource } from '../regulation/biological-endpoints.ts';
import { cell, nothing, notice, onLines, orNothing, reference, standingText, text } from './cells.ts';
import { captionOf, type View, type ViewContext } from './view.ts';

type Part = 'contact' | 'matrix' | 'endpoints';

interface Options {
  readonly part?: Part;
  readonly caption?: string;
  readonly anchor?: string;
}

const idsOnLines = (ids: readonly string[]): readonly Inline[] => onLines(ids.map((id) => [reference(id)]));

const contactTable = (evaluation: Evaluation, { graph }: ViewContext): Table => ({
  kind: 'table',
  columns: [
    { title: 'Group', width: 16 },
    { title: 'Materials', width: 36 },
    { title: 'Touches', width: 24 },
    { title: 'Duration', width: 14 },
    { title: 'Why', width: 40 },
  ],
  rows: evaluation.fields.groups.map((group) => ({
    cells: [
      cell(text(group.group, { bold: true })),
      cell(
        ...onLines(
          group.materials.map((id) => [
            reference(id),
            text(` ${graph.recordOf('material', id)?.fields.supplier_grade ?? ''}`),
          ]),
        ),
      ),
      cell(text(touches(group))),
      cell(hasContact(group) ? text(group.duration ?? 'not stated') : nothing()),
      cell(group.reason === undefined ? nothing('not stated') : text(group.reason)),
    ],
  })),
  description: 'Each row is a group of materials that touch the same tissue for the same time.',
});

const touches = (group: ContactGroup): string =>
  hasContact(group)
    ? [group.tissue, group.contact, group.device].filter((part) => part !== undefined).join(', ')
    : 'nothing that reaches the patient';

const rowOf = (evaluation: Evaluation, group: ContactGroup) =>
  group.duration === undefined
    ? undefined
    : endpointRow({
        edition: evaluation.fields.edition,
        device: group.device,
        tissue: group.tissue,
        duration: group.duration,
      });

/** Endpoints that stand anywhere in the evaluation, in the order of the standard. */
const columnsOf = (evaluation: Evaluation): readonly string[] => {
  const wanted = new Set<string>([
    ...evaluation.fields.endpoints.map(({ endpoint }) => endpoint),
    ...(evaluation.fields.planned ?? []),
    ...evaluation.fields.groups
      .filter(hasContact)
      .flatMap((group) => rowOf(evaluation, group)?.endpoints ?? []),
  ]);
  return endpointSource.endpoints.filter((endpoint) => wanted.has(endpoint));
};

const addressedWords = (entries: readonly AddressedEndpoint[]): readonly Inline[] =>
  onLines(
    entries.map(({ addressed_by: by, report, evidence = [] }) => [
      text(report ? `${by} ${report.number}` : by),
      ...(evidence.length === 0
        ? []
        : [
            text(', '),
            ...evidence.flatMap((id, index): readonly Inline[] =>
              index === 0 ? [reference(id)] : [text(', '), reference(id)],
            ),
          ]),
    ]),
  );

const matrixCell = (evaluation: Evaluation, group: ContactGroup, endpoint: string): Cell => {
  if (!hasContact(group)) return cell(nothing('no contact'));
  const entries = addressing(evaluation, group.group, endpoint);
  if (entries.length > 0) return cell(...addressedWords(entries));
  const row = rowOf(evaluation, group);
  const asked =
    row?.endpoints.includes(endpoint) || evaluation.fields.planned?.some((each) => each === endpoint);
  return cell(
    asked ? text('open', { tone: 'bad', bold: true }) : nothing(row ? 'not asked for' : 'no table at hand'),
  );
};

const matrixTable = (evaluation: Evaluation, { graph }: ViewContext): Table => {
  const endpoints = columnsOf(evaluation);
  return {
    kind: 'table',
    columns: [
      { title: 'Material', width: 22 },
      ...endpoints.map((endpoint) => ({
        title: endpoint.charAt(0).toUpperCase() + endpoint.slice(1),
        width: 14,
      })),
    ],
    rows: evaluation.fields.groups.flatMap((group) =>
      group.materials.map((id) => ({
        recordId: id,
        cells: [
          cell(reference(id), text(` ${graph.record(id)?.title ?? ''}`)),
          ...endpoints.map((endpoint) => matrixCell(evaluation, group, endpoint)),
        ],
      })),
    ),
    description: 'Each row is a material, each column an endpoint; the cell says how it was addressed.',
  };
};

const sampleWords = ({ sample }: AddressedEndpoint): readonly Inline[] => {
  if (!sample) return [nothing()];
  return onLines([
    [text(`${sample.of}, ${sample.sterilised ? 'sterilised' : 'not sterilised'}`)],
    ...(sample.lot === undefined ? [] : [[text(`lot ${sample.lot}`)]]),
    ...(sample.grade === undefined ? [] : [[text(sample.grade)]]),
    ...(sample.argument === undefined ? [] : [[text(sample.argument, { tone: 'quiet' as const })]]),
  ]);
};

const endpointsTable = (evaluation: Evaluation, { standing }: ViewContext): Table => ({
  kind: 'table',
  columns: [
    { title: 'Endpoint', width: 20 },
    { title: 'Groups', width: 16 },
    { title: 'Addressed by', width: 24 },
    { title: 'Sample', width: 20 },
    { title: 'Evidence', width: 16 },
    { title: 'Reason and conclusion', width: 36 },
  ],
  rows: evaluation.fields.endpoints.map((entry) => ({
    cells: [
      cell(text(entry.endpoint, { bold: true })),
      cell(text(entry.groups.join(', '))),
      cell(
        ...onLines([
          [text(entry.report ? `${entry.addressed_by}, report ${entry.report.number}` : entry.addressed_by)],
          ...(entry.report?.standard === undefined
            ? []
            : [[text(`${entry.report.standard}${entry.report.edition ? `:${entry.report.edition}` : ''}`)]]),
          ...(entry.report?.gap === undefined ? [] : [[text(entry.report.gap, { tone: 'quiet' as const })]]),
        ]),
      ),
      cell(...sampleWords(entry)),
      cell(
        ...orNothing(
          onLines(
            (entry.evidence ?? []).map((id) => {
              const state = standing.get(id)?.state;
              return [reference(id), ...(state === undefined ? [] : [text(': '), standingText(state)])];
            }),
          ),
        ),
      ),
      cell(
        ...orNothing(
          onLines([
            ...(entry.reason === undefined ? [] : [[text(entry.reason)]]),
            ...(entry.conclusion === undefined ? [] : [[text(entry.conclusion, { italic: true })]]),
          ]),
        ),
      ),
    ],
  })),
  description:
    'Each row is an endpoint with how it was addressed, on which sample, and what the evaluator concludes.',
});

const lead = (evaluation: Evaluation, { graph }: ViewContext): Block => {
  const standard = graph.recordOf('standard', evaluation.fields.follows);
  const { edition, plan, date, evaluator } = evaluation.fields;
  return {
    kind: 'particulars',
    entries: [
      { name: 'Evaluation', value: [reference(evaluation.id), text(` ${evaluation.title}`)] },
      {
        name: 'Follows',
        value: [text(`${standard?.fields.designation ?? evaluation.fields.follows}:${edition}`)],
      },
      { name: 'Plan', value: [plan === undefined ? nothing('not stated') : text(plan)] },
      { name: 'Report', value: [date === undefined ? nothing('not stated') : text(date)] },
      { name: 'Evaluator', value: [evaluator === undefined ? nothing('not stated') : text(evaluator)] },
      {
        name: 'Materials',
        value: idsOnLines(evaluation.fields.groups.flatMap(({ materials }) => materials)),
      },
    ],
  };
};

const tables: Readonly<Record<Part, (evaluation: Evaluation, context: ViewContext) => Table>> = {
  contact: contactTable,
  matrix: matrixTable,
  endpoints: endpointsTable,
};

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const found = evaluations(context.graph);
  if (found.length === 0) return { blocks: [notice('There is no biological evaluation yet.')] };
  const parts: readonly Part[] = options.part ? [options.part] : ['contact', 'matrix', 'endpoints'];
  const several = found.length > 1;
  return {
    blocks: [
      ...found.flatMap((evaluation, index): readonly Block[] => [
        ...(several || options.part === undefined ? [lead(evaluation, context)] : []),
        ...parts.map((part, at) => ({
          ...tables[part](evaluation, context),
          ...(index === 0 && at === 0 ? captionOf(options) : {}),
        })),
      ]),
      ...(parts.includes('matrix') ? [notice(`${endpointSource.caution}`)] : []),
    ],
  };
};

export const biologicalMatrix: View = { name: 'biological-matrix', draw };

import type { Block, Inline, Table } from '../document/model.ts';
import { compareIds } from '../graph/trace-graph.ts';
import { nearestName } from '../records/nearest-name.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { JsonSchema } from '../records/schema-set.ts';
import { cell, notice, onLines, orNothing, reference, standingText, text } from './cells.ts';
import { type FieldPiece, fieldPieces, fieldValue } from './field-values.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

interface Options extends CommonOptions {
  readonly type: string;
  readonly of?: readonly string[];
  readonly form?: 'table' | 'full';
  readonly fields?: readonly string[];
  /** Whether a record in full lists the records that name it. Default: yes. */
  readonly named_by?: boolean;
}

const inHeading = new Set(['id', 'type', 'title', 'approvals', 'states']);

/** Whether a record without the field lacks something: what the schema asks for, and approvals. */
const isAwaited = (name: string, schema: JsonSchema): boolean =>
  name === 'approvals' || (schema.required?.includes(name) ?? false);

/** Links into a record, by what they mean seen from it: `is verified by`. */
const answers = (
  record: TechnicalRecord,
  { graph }: ViewContext,
): readonly { readonly name: string; readonly value: readonly Inline[] }[] => {
  const byRelation = new Map<string, string[]>();
  for (const link of graph.linksTo(record.id)) {
    const known = byRelation.get(link.inverse) ?? [];
    if (!known.includes(link.from)) known.push(link.from);
    byRelation.set(link.inverse, known);
  }
  return [...byRelation]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([relation, ids]) => ({
      name: relation.charAt(0).toUpperCase() + relation.slice(1),
      value: ids
        .sort(compareIds)
        .flatMap((id, index): readonly Inline[] =>
          index === 0 ? [reference(id)] : [text(', '), reference(id)],
        ),
    }));
};

/** Headings inside a record become bold lines: numbered and listed, they would hide the records in the contents list. */
const asBoldLine = (block: Block): Block =>
  block.kind === 'heading'
    ? {
        kind: 'paragraph',
        leadsIn: true,
        children: block.children.map((child) => (child.kind === 'text' ? { ...child, bold: true } : child)),
      }
    : block;

/** A list of objects as a table, led in by the name of the field. */
const tableOf = (
  { name, columns, rows }: Extract<FieldPiece, { readonly kind: 'table' }>,
  record: TechnicalRecord,
): readonly Block[] => {
  // A column of long texts gets more room than one of numbers.
  const widths = columns.map((title, index) =>
    Math.min(60, Math.max(title.length, 8, ...rows.map((row) => lengthOf(row[index] ?? [])))),
  );
  return [
    { kind: 'paragraph', leadsIn: true, children: [text(name, { bold: true })] },
    {
      kind: 'table',
      columns: columns.map((title, index) => ({ title, width: widths[index] ?? 8 })),
      rows: rows.map((row) => ({ cells: row.map((value) => cell(...orNothing(value, '–'))) })),
      description: `${name} of ${record.id}.`,
    },
  ];
};

const lengthOf = (inlines: readonly Inline[]): number =>
  inlines.reduce((sum, inline) => sum + (inline.kind === 'text' ? inline.value.length : 7), 0);

const inFull = (
  record: TechnicalRecord,
  fields: readonly string[],
  isNamedByShown: boolean,
  context: ViewContext,
): readonly Block[] => {
  const level = Math.min(6, context.enclosingLevel + 1) as 1 | 2 | 3 | 4 | 5 | 6;
  const pieces = fields.flatMap((name) => fieldPieces(record, context.graph, name));
  const standing = context.standing.get(record.id);
  const entries = [
    ...pieces.flatMap((piece) => (piece.kind === 'value' ? [piece] : [])),
    ...(isNamedByShown ? answers(record, context) : []),
    ...(standing
      ? [
          {
            name: 'Standing',
            value: [
              standingText(standing.state),
              text(standing.state === 'passed' ? '' : `: ${standing.reason}`),
            ],
          },
        ]
      : []),
  ];
  const body = context.bodyOf(record, 6);
  const firstSection = body.findIndex((block) => block.kind === 'heading');
  const statement = firstSection === -1 ? body : body.slice(0, firstSection);
  const sections = firstSection === -1 ? [] : body.slice(firstSection);
  return [
    { kind: 'heading', level, children: [text(`${record.id} ${record.title}`)], recordId: record.id },
    ...statement,
    { kind: 'particulars', entries },
    ...pieces.flatMap((piece) => (piece.kind === 'table' ? tableOf(piece, record) : [])),
    ...sections.map(asBoldLine),
  ];
};

const draw: View['draw'] = (body, context) => {
  const options = body as unknown as Options;
  const type = context.graph.types.get(options.type);
  if (!type) {
    const names = [...context.graph.types.keys()];
    const near = nearestName(options.type, names);
    return {
      blocks: [],
      problems: [
        {
          path: ['type'],
          message: `unknown record type "${options.type}"`,
          hint: near ? `Did you mean "${near}"?` : `Use one of: ${names.join(', ')}.`,
        },
      ],
    };
  }
  const unknown = (options.fields ?? []).flatMap((field, index) =>
    type.fields.includes(field)
      ? []
      : [
          {
            path: ['fields', index],
            message: `a ${options.type} has no field "${field}"`,
            hint: `Use some of: ${type.fields.join(', ')}.`,
          },
        ],
  );
  const strange = (options.of ?? []).flatMap((id, index) =>
    context.graph.record(id)?.type === options.type
      ? []
      : [
          {
            path: ['of', index],
            message: context.graph.record(id)
              ? `${id} is no ${type.title.toLowerCase()}`
              : `there is no record ${id}`,
            hint: `Name records of the type ${options.type}.`,
          },
        ],
  );
  if (unknown.length + strange.length > 0) return { blocks: [], problems: [...unknown, ...strange] };
  const ofType = [...context.graph.records.values()].filter(
    (record) => record.type === options.type && record.sound && isShown(record, options),
  );
  const records = options.of
    ? options.of.flatMap((id) => ofType.find((record) => record.id === id) ?? [])
    : ofType;
  if (records.length === 0)
    return {
      blocks: [notice(`There are no ${type.plural.toLowerCase()} yet.`)],
    };
  const fields = options.fields ?? type.fields.filter((name) => !inHeading.has(name));
  if (options.form === 'full')
    return {
      blocks: records.flatMap((record) => inFull(record, fields, options.named_by ?? true, context)),
    };
  const table: Table = {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: type.title, width: 24 },
      ...fields.map((name) => ({
        title: type.schema.properties?.[name]?.title ?? name,
        width: 18,
      })),
    ],
    rows: records.map((record) => ({
      recordId: record.id,
      cells: [
        cell(...onLines([[reference(record.id)], [text(record.title)]])),
        ...fields.map((name) =>
          cell(
            ...orNothing(
              fieldValue(record, context.graph, name),
              // A field that may be left empty is not missing.
              isAwaited(name, type.schema) ? 'not stated' : '–',
            ),
          ),
        ),
      ],
    })),
    description: `${type.plural}, one row each.`,
  };
  return { blocks: [table] };
};

export const recordsView: View = { name: 'records', draw };

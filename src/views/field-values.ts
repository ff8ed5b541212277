import type { Inline } from '../document/model.ts';
import { limitWords, type WrittenLimit } from '../evidence/limit-words.ts';
import { printedNumber } from '../evidence/number-text.ts';
import type { Approval } from '../graph/approvals.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { JsonSchema } from '../records/schema-set.ts';
import { unitText, withUnit } from '../records/units.ts';
import { onLines, reference, text } from './cells.ts';

type Path = readonly (string | number)[];

/** The value of a front-matter field as a reader sees it. Ids become references, numbers keep their written form. */
export const fieldValue = (record: TechnicalRecord, graph: TraceGraph, name: string): readonly Inline[] => {
  if (name === 'approvals') return approvalLines(record);
  const schema = graph.types.get(record.type)?.schema.properties?.[name];
  return valueOf(record.fields[name], schema, [name], record, graph);
};

/** Who approved what and when. The digests that tie approvals to their content say nothing to a reader. */
const approvalLines = (record: TechnicalRecord): readonly Inline[] =>
  onLines(
    ((record.fields['approvals'] ?? []) as readonly Approval[]).map(({ role, name, meaning, date }) => [
      text(`${role}: ${name}, ${date}, ${meaning}`),
    ]),
  );

/** A field taken apart for a record in full: named values, and lists of objects as tables. */
export type FieldPiece =
  | { readonly kind: 'value'; readonly name: string; readonly value: readonly Inline[] }
  | {
      readonly kind: 'table';
      readonly name: string;
      readonly columns: readonly string[];
      readonly rows: readonly (readonly (readonly Inline[])[])[];
    };

/**
 * The pieces of a field for a record in full. What an object holds stands under names of its own, "Overall residual
 * risk: decision"; a list of objects becomes a table with a column for each of their fields.
 */
export const fieldPieces = (
  record: TechnicalRecord,
  graph: TraceGraph,
  name: string,
): readonly FieldPiece[] => {
  const schema = graph.types.get(record.type)?.schema.properties?.[name];
  return piecesOf(record.fields[name], schema, [name], schema?.title ?? name, record, graph);
};

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A number with its unit and nothing else. */
const isQuantity = (value: Record<string, unknown>): boolean =>
  Object.keys(value).length === 2 && typeof value['value'] === 'number' && typeof value['unit'] === 'string';

/** Limits, dimensions and quantities have a form of their own, on one line. */
const hasLineForm = (value: Record<string, unknown>): boolean =>
  isQuantity(value) ||
  (Object.keys(value).length === 2 && typeof value['from'] === 'string' && typeof value['to'] === 'string') ||
  (typeof (value['characteristic'] ?? value['name']) === 'string' &&
    ['lower', 'upper', 'criterion', 'nominal'].some((key) => key in value));

/** A title within a name begins small, unless it is an abbreviation: "decision", but "P1" and "SHA-256". */
const insideName = (title: string): string =>
  /^.\p{Ll}/u.test(title) ? `${title.charAt(0).toLowerCase()}${title.slice(1)}` : title;

const piecesOf = (
  value: unknown,
  schema: JsonSchema | undefined,
  path: Path,
  name: string,
  record: TechnicalRecord,
  graph: TraceGraph,
): readonly FieldPiece[] => {
  if (isObject(value) && !hasLineForm(value))
    return Object.entries(value).flatMap(([key, inner]) => {
      const inside = schema?.properties?.[key];
      const title = inside?.title ?? key;
      // One colon in a name: "Overall residual risk, considered: comparison".
      return piecesOf(
        inner,
        inside,
        [...path, key],
        `${name.replace(': ', ', ')}: ${insideName(title)}`,
        record,
        graph,
      );
    });
  if (
    Array.isArray(value) &&
    value.length > 0 &&
    value.every((item) => isObject(item) && !hasLineForm(item))
  ) {
    const items = value as readonly Record<string, unknown>[];
    const inside = schema?.items?.properties ?? {};
    const used = new Set(items.flatMap((item) => Object.keys(item)));
    const keys = [
      ...Object.keys(inside).filter((key) => used.has(key)),
      ...[...used].filter((key) => !(key in inside)),
    ];
    return [
      {
        kind: 'table',
        name,
        columns: keys.map((key) => inside[key]?.title ?? key),
        rows: items.map((item, index) =>
          keys.map((key) => valueOf(item[key], inside[key], [...path, index, key], record, graph)),
        ),
      },
    ];
  }
  const shown = valueOf(value, schema, path, record, graph);
  return shown.length === 0 ? [] : [{ kind: 'value', name, value: shown }];
};

const valueOf = (
  value: unknown,
  schema: JsonSchema | undefined,
  path: Path,
  record: TechnicalRecord,
  graph: TraceGraph,
): readonly Inline[] => {
  if (value === undefined || value === null) return [];
  if (Array.isArray(value)) {
    const pieces = value.map((item, index) => valueOf(item, schema?.items, [...path, index], record, graph));
    const short = value.every((item) => typeof item === 'string' || typeof item === 'number');
    return short
      ? pieces.flatMap((piece, index) => (index === 0 ? piece : [text(', '), ...piece]))
      : onLines(pieces);
  }
  if (typeof value === 'object')
    return objectValue(value as Record<string, unknown>, schema, path, record, graph);
  if (typeof value === 'boolean') return [text(value ? 'yes' : 'no')];
  if (typeof value === 'number') {
    const unit = schema?.['x-unit'];
    return [
      text(
        withUnit(
          printedNumber(record.yaml.written(path) ?? String(value)),
          typeof unit === 'string' ? unit : '1',
        ),
      ),
    ];
  }
  const plain = String(value);
  if (schema?.['x-link'] && graph.record(plain)) return [reference(plain)];
  return [text(path.at(-1) === 'unit' ? unitText(plain) : plain)];
};

const objectValue = (
  value: Record<string, unknown>,
  schema: JsonSchema | undefined,
  path: Path,
  record: TechnicalRecord,
  graph: TraceGraph,
): readonly Inline[] => {
  const written = (name: string): string | undefined =>
    typeof value[name] === 'number'
      ? printedNumber(record.yaml.written([...path, name]) ?? String(value[name]))
      : undefined;
  const unit = typeof value['unit'] === 'string' ? value['unit'] : '1';
  const characteristic = value['characteristic'] ?? value['name'];
  if (typeof characteristic === 'string' && ('lower' in value || 'upper' in value || 'criterion' in value)) {
    const lower = written('lower');
    const upper = written('upper');
    const limit: WrittenLimit = {
      ...(lower === undefined ? {} : { lower }),
      ...(upper === undefined ? {} : { upper }),
      unit,
      ...(typeof value['criterion'] === 'string' ? { criterion: value['criterion'] } : {}),
    };
    const conditions = Array.isArray(value['conditions']) ? ` (${value['conditions'].join(', ')})` : '';
    const perUnit = typeof value['per_unit'] === 'string' ? ` (${value['per_unit']} of each unit)` : '';
    return [text(`${characteristic}: `), text(limitWords(limit), { bold: true }), text(conditions + perUnit)];
  }
  if (typeof characteristic === 'string' && 'nominal' in value) {
    const plus = written('plus');
    const minus = written('minus');
    const tolerance =
      plus === undefined && minus === undefined
        ? ''
        : plus === minus
          ? ` ± ${plus}`
          : ` +${plus ?? '0'} / −${minus ?? '0'}`;
    return [
      text(`${characteristic}: `),
      text(withUnit(`${written('nominal') ?? ''}${tolerance}`, unit), {
        bold: true,
      }),
      text(value['essential'] === true ? ' (essential)' : ''),
    ];
  }
  if (isQuantity(value)) return [text(withUnit(written('value') ?? '', unit))];
  const { from, to, ...others } = value;
  // A period reads as people write it.
  if (typeof from === 'string' && typeof to === 'string' && Object.keys(others).length === 0)
    return [text(from === to ? from : `${from} to ${to}`)];
  const parts = Object.entries(value).map(([name, inner]) => {
    const inside = schema?.properties?.[name];
    const shown = valueOf(inner, inside, [...path, name], record, graph);
    return [text(`${(inside?.title ?? name).toLowerCase()}: `, { tone: 'quiet' }), ...shown];
  });
  return parts.flatMap((part, index) => (index === 0 ? part : [text('; '), ...part]));
};

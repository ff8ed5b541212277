import type { Inline } from '../document/model.ts';
import { limitWords, type WrittenLimit } from '../evidence/limit-words.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { JsonSchema } from '../records/schema-set.ts';
import { unitText, withUnit } from '../records/units.ts';
import { onLines, reference, text } from './cells.ts';

type Path = readonly (string | number)[];

/** The value of a front-matter field as a reader sees it. Ids become references, numbers keep their written form. */
export const fieldValue = (record: TechnicalRecord, graph: TraceGraph, name: string): readonly Inline[] => {
  const schema = graph.types.get(record.type)?.schema.properties?.[name];
  return valueOf(record.fields[name], schema, [name], record, graph);
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
  if (typeof value === 'number') return [text(record.yaml.written(path) ?? String(value))];
  const plain = String(value);
  if (schema?.['x-link'] && graph.record(plain)) return [reference(plain)];
  return [text(plain)];
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
      ? (record.yaml.written([...path, name]) ?? String(value[name]))
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
  const parts = Object.entries(value).map(([name, inner]) => {
    const inside = schema?.properties?.[name];
    const shown =
      name === 'unit'
        ? [text(unitText(String(inner)))]
        : valueOf(inner, inside, [...path, name], record, graph);
    return [text(`${(inside?.title ?? name).toLowerCase()}: `, { tone: 'quiet' }), ...shown];
  });
  return parts.flatMap((part, index) => (index === 0 ? part : [text('; '), ...part]));
};

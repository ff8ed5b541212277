import type { Inline } from '../document/model.ts';
import { printedNumber } from '../evidence/number-text.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { JsonSchema } from '../records/schema-set.ts';
import { unitText, withUnit } from '../records/units.ts';
import { reference, text } from './cells.ts';

type Path = readonly (string | number)[];
type Entry = Readonly<Record<string, unknown>>;

/** What is the name of a thing rather than a word: no input of an evaluation. */
const noInput: Readonly<Record<string, readonly string[]>> = {
  calculation: ['kind', 'exposure_unit'],
  study: ['kind', 'file', 'sha256', 'result'],
};

interface Reading {
  readonly record: TechnicalRecord;
  readonly graph: TraceGraph;
}

/** A number with the digits that its author wrote, as numbers are printed. */
const numberAt = ({ record }: Reading, path: Path, value: unknown): string =>
  printedNumber(record.yaml.written(path) ?? String(value));

const isEntry = (value: unknown): value is Entry =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const idOrText = ({ graph }: Reading, value: unknown): Inline =>
  graph.record(String(value)) ? reference(String(value)) : text(String(value));

/** ` ± 2`, or ` +2 / −1` where the two sides differ. */
const deviation = (plus: string | undefined, minus: string | undefined): string => {
  if (plus === undefined && minus === undefined) return '';
  return plus === minus ? ` ± ${plus}` : ` +${plus ?? '0'} / −${minus ?? '0'}`;
};

/** Variables and terms: where the value comes from, or the value with its tolerance. */
const sourceOfValue = (entry: Entry, path: Path, reading: Reading): readonly Inline[] => {
  const number = (key: string): string | undefined =>
    entry[key] === undefined ? undefined : numberAt(reading, [...path, key], entry[key]);
  const unit = typeof entry['unit'] === 'string' ? entry['unit'] : '1';
  const [power, sensitivity] = [number('power'), number('sensitivity')];
  return [
    ...(entry['output'] === undefined
      ? [text(withUnit(`${number('value') ?? ''}${deviation(number('plus'), number('minus'))}`, unit))]
      : [idOrText(reading, entry['output']), text(` ${String(entry['characteristic'] ?? '')}`)]),
    ...(power === undefined || power === '1' ? [] : [text(`, to the power ${power}`)]),
    ...(sensitivity === undefined || sensitivity === '1'
      ? []
      : [text(sensitivity === '−1' ? ', subtracted' : `, times ${sensitivity}`)]),
    ...(entry['distribution'] === undefined ? [] : [text(`, ${String(entry['distribution'])} distribution`)]),
    ...(entry['source'] === undefined ? [] : [text(` (${String(entry['source'])})`)]),
  ];
};

/** Lists whose entries have a form of their own; what leads each line, and the rest of it. */
const entryForms: Readonly<
  Record<string, (entry: Entry, path: Path, reading: Reading) => readonly [string, readonly Inline[]]>
> = {
  variables: (entry, path, reading) => [String(entry['name']), sourceOfValue(entry, path, reading)],
  terms: (entry, path, reading) => [`Term ${Number(path.at(-1)) + 1}`, sourceOfValue(entry, path, reading)],
  measured: (entry, path, reading) => [
    `${capital(String(entry['substance']))}, ${String(entry['period'])}`,
    [text(withUnit(numberAt(reading, [...path, 'amount'], entry['amount']), String(entry['unit'] ?? '1')))],
  ],
  steps: (entry, path, reading) => [
    `Exposure ${withUnit(numberAt(reading, [...path, 'exposure'], entry['exposure']), exposureUnit(reading))}`,
    [text(`${String(entry['negative'])} of ${String(entry['replicates'])} indicators without growth`)],
  ],
};

const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

const stated = ({ record }: Reading, field: string): Entry => {
  const value = record.fields[field];
  return isEntry(value) ? value : {};
};

const exposureUnit = (reading: Reading): string => {
  const unit = stated(reading, 'calculation')['exposure_unit'];
  return typeof unit === 'string' ? unit : '1';
};

/** A factor that is a simple multiple of π is known by that name sooner than by its digits. */
const piWords = (value: number, written: string): string => {
  for (const divisor of [1, 2, 3, 4, 6, 8, 12, 16, 32, 64])
    for (const factor of [1, 2, 3, 4])
      if (Math.abs(value / ((factor * Math.PI) / divisor) - 1) < 1e-9) {
        const multiple = factor === 1 ? 'π' : `${factor}π`;
        return `${divisor === 1 ? multiple : `${multiple}/${divisor}`} (${value.toPrecision(6)})`;
      }
  return written;
};

/** A formula as it is set: a dot for the product, π, a true minus sign. The record keeps the form that is computed. */
const formulaWords = (formula: string): string =>
  formula
    .replace(/\s*\*\s*/g, ' · ')
    .replace(/\bpi\b/g, 'π')
    .replaceAll('-', '−');

/** The unit of a number whose unit is another field, or that of the readings. */
const unitOf = (field: string, name: string, schema: JsonSchema | undefined, reading: Reading): string => {
  const { record } = reading;
  const fixedUnit = schema?.['x-unit'];
  if (typeof fixedUnit === 'string') return fixedUnit;
  if (field === 'study') {
    if (name === 'accept_percent') return '%';
    const unit = record.fields['unit'];
    if (name === 'tolerance' || name === 'accept_bias') return typeof unit === 'string' ? unit : '1';
  }
  if (/^(?:exposure|half_cycle_exposure|decimal_reduction_time)$/.test(name)) return exposureUnit(reading);
  if (name === 'constant') {
    const unit = stated(reading, field)['constant_unit'];
    return typeof unit === 'string' ? unit : '1';
  }
  return '1';
};

const numberWords = (
  field: string,
  name: string,
  value: number,
  schema: JsonSchema | undefined,
  reading: Reading,
): string => {
  const written = numberAt(reading, [field, name], value);
  return withUnit(
    name === 'constant' ? piWords(value, written) : written,
    unitOf(field, name, schema, reading),
  );
};

const realTimeWords = (value: Entry): string => {
  const pulls = Array.isArray(value['pulls']) ? value['pulls'].map(String) : [];
  const months =
    pulls.length > 1
      ? `${pulls.slice(0, -1).join(', ')} and ${pulls.at(-1) ?? ''} months`
      : `${pulls[0]} months`;
  return `from ${String(value['start'])}${pulls.length === 0 ? '' : `, tested after ${months}`}`;
};

/**
 * What a record states for the evaluation under a field: one line for each value or entry of a list, under the titles
 * and in the units of the schema, with the numbers as they are written.
 */
const inputLines = (field: string, reading: Reading): readonly (readonly Inline[])[] => {
  const { record, graph } = reading;
  const schema = graph.types.get(record.type)?.schema.properties?.[field];
  return Object.entries(stated(reading, field)).flatMap(([name, value]): readonly (readonly Inline[])[] => {
    if (noInput[field]?.includes(name) || name === 'constant_unit') return [];
    const inner = schema?.properties?.[name];
    const title = inner?.title ?? name.replaceAll('_', ' ');
    const line = (words: string | readonly Inline[]): readonly Inline[] => [
      text(`${title}: `),
      ...(typeof words === 'string' ? [text(words)] : words),
    ];
    const form = entryForms[name];
    if (Array.isArray(value) && form)
      return value.flatMap((entry: unknown, index) => {
        if (!isEntry(entry)) return [];
        const [lead, rest] = form(entry, [field, name, index], reading);
        return [[text(`${lead}: `), ...rest]];
      });
    if (Array.isArray(value)) return [line(value.map(String).join(', '))];
    if (isEntry(value)) return [line(name === 'real_time' ? realTimeWords(value) : entryWords(value, inner))];
    if (typeof value === 'number') return [line(numberWords(field, name, value, inner, reading))];
    if (typeof value === 'boolean') return [line(value ? 'yes' : 'no')];
    if (name === 'formula') return [line([text(formulaWords(String(value)))])];
    if (/(?:^|_)unit$/.test(name)) return [line(unitText(String(value)))];
    const words = inner?.enum === undefined ? String(value) : String(value).replaceAll('-', ' ');
    return [line(inner?.['x-link'] === undefined ? words : [idOrText(reading, value)])];
  });
};

/** A group of fields that has no form of its own. */
const entryWords = (value: Entry, schema: JsonSchema | undefined): string =>
  Object.entries(value)
    .map(([key, inner]) => {
      const title = schema?.properties?.[key]?.title ?? key.replaceAll('_', ' ');
      return `${title.toLowerCase()} ${printedNumber(String(inner))}`;
    })
    .join(', ');

/** The inputs of a calculation or study, line by line. */
export const evidenceInputs = (
  record: TechnicalRecord | undefined,
  graph: TraceGraph,
): readonly (readonly Inline[])[] =>
  record === undefined
    ? []
    : ['calculation', 'study'].flatMap((field) => inputLines(field, { record, graph }));

import type { Place } from '../findings/finding.ts';
import { proseOnly } from './prose.ts';
import { placeInBody, placeOf, type TechnicalRecord } from './record.ts';

/** A piece of text that people wrote: a field, or the prose of the body. */
export interface RecordText {
  /** Path of the field; undefined for the body. */
  readonly path?: readonly (string | number)[];
  readonly text: string;
  /** Place of a passage of the text. */
  readonly placeAt: (offset: number, length: number) => Place;
}

/** Fields that hold keys and marks of the tool rather than words. */
const notWords = new Set(['id', 'type', 'status', 'approvals']);

/** All texts in fields, with their paths, in the order of the file. */
export const fieldTexts = (record: TechnicalRecord): readonly RecordText[] => {
  const known = textsOfFields.get(record) ?? gatherTexts(record);
  textsOfFields.set(record, known);
  return known;
};

/** Several checks read the texts of every record. */
const textsOfFields = new WeakMap<TechnicalRecord, readonly RecordText[]>();
const proseOfBodies = new WeakMap<TechnicalRecord, string>();

const proseOf = (record: TechnicalRecord): string => {
  const known = proseOfBodies.get(record) ?? proseOnly(record.body);
  proseOfBodies.set(record, known);
  return known;
};

const gatherTexts = (record: TechnicalRecord): readonly RecordText[] => {
  const found: RecordText[] = [];
  const walk = (value: unknown, path: readonly (string | number)[]): void => {
    if (typeof value === 'string')
      found.push({
        path,
        text: value,
        placeAt: (offset, length) => placeInField(record, path, value, offset, length),
      });
    else if (Array.isArray(value)) for (const [index, item] of value.entries()) walk(item, [...path, index]);
    else if (value !== null && typeof value === 'object')
      for (const [key, inner] of Object.entries(value)) walk(inner, [...path, key]);
  };
  for (const [name, value] of Object.entries(record.fields)) if (!notWords.has(name)) walk(value, [name]);
  return found;
};

/** All texts in fields, and the prose of the body without code and comments. */
export const recordTexts = (record: TechnicalRecord): readonly RecordText[] => [
  ...fieldTexts(record),
  {
    text: proseOf(record),
    placeAt: (offset, length) => placeInBody(record, offset, length),
  },
];

/** A passage of a field on one line without escapes has a place of its own; in any other field the place is that of the whole. */
const placeInField = (
  record: TechnicalRecord,
  path: readonly (string | number)[],
  text: string,
  offset: number,
  length: number,
): Place => {
  const whole = placeOf(record, ...path);
  if (whole.endColumn === undefined) return whole;
  const written = whole.endColumn - whole.column;
  const quote = written === text.length ? 0 : written === text.length + 2 ? 1 : undefined;
  if (quote === undefined) return whole;
  const column = whole.column + quote + offset;
  return {
    file: whole.file,
    line: whole.line,
    column,
    endLine: whole.line,
    endColumn: column + length,
  };
};

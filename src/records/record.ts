import type { Place } from '../findings/finding.ts';
import type { FieldsByType } from './fields.ts';
import type { ParsedYaml } from './front-matter.ts';
import { placeAt } from './text-position.ts';

/** A link as written in one record. */
export interface WrittenLink {
  readonly from: string;
  readonly to: string;
  /** Name of the link: the first field of its path, or the name that the schema gives. */
  readonly field: string;
  readonly path: readonly (string | number)[];
  readonly relation: string;
  readonly inverse: string;
  /** False for links to registers that grow and to past events: later changes there leave the record as it is. */
  readonly relies: boolean;
  /** Types that the schema allows; `*` means any. */
  readonly allowed: readonly string[];
}

/** One Markdown file of the technical file. */
export interface TechnicalRecord {
  readonly id: string;
  readonly type: string;
  readonly title: string;
  readonly status: string;
  readonly file: string;
  /** False where the schema was not met: the record is known and can be linked, but checks do not judge it. */
  readonly sound: boolean;
  /** The record without its faulty rows, where all else meets the schema: this much of it is judged. */
  readonly soundPart?: TechnicalRecord;
  /** Front matter as plain data. */
  readonly fields: Readonly<Record<string, unknown>>;
  readonly links: readonly WrittenLink[];
  /** Markdown below the front matter, with LF line ends. */
  readonly body: string;
  readonly bodyLine: number;
  readonly yaml: ParsedYaml;
}

/** A record of a known type, with its fields typed by the schema. */
export type RecordOf<T extends keyof FieldsByType> = TechnicalRecord & {
  readonly type: T;
  readonly fields: FieldsByType[T];
};

export const isOfType = <T extends keyof FieldsByType>(
  record: TechnicalRecord,
  type: T,
): record is RecordOf<T> => record.type === type && record.sound;

/** Place of a field; of the record's first line where the path is empty. */
export const placeOf = (record: TechnicalRecord, ...path: readonly (string | number)[]): Place =>
  path.length === 0 ? { file: record.file, line: 1, column: 1 } : record.yaml.place(path);

/** Place of an offset in the body. */
export const placeInBody = (record: TechnicalRecord, offset: number, length = 0): Place =>
  placeAt(record.file, record.body, offset, record.bodyLine, length);

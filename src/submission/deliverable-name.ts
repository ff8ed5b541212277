import type { TechnicalRecord } from '../records/record.ts';

/** Words as a part of a file name: lower case, joined by hyphens, at most 60 signs. */
export const wordsOfName = (words: string): string =>
  words
    .toLowerCase()
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);

/**
 * Name of the files that a document becomes, without their ending: `DOC-01-design-trace-matrix`.
 *
 * @param each the record that a document with `for_each` is written for
 */
export const deliverableName = (record: TechnicalRecord, each?: TechnicalRecord): string =>
  `${record.id}${each ? `-${each.id}` : ''}-${wordsOfName((each ?? record).title)}`;

import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { TechnicalRecord } from '../records/record.ts';
import type { RecordType } from '../records/schema-set.ts';

/** SHA-256 of bytes as 64 hexadecimal digits. */
export const sha256Hex = (bytes: Uint8Array): string => bytesToHex(sha256(bytes));

const digestsOfFiles = new WeakMap<Uint8Array, string>();

/** SHA-256 of the bytes of a source file, in hex. Nothing changes them once they are read, so each is hashed once. */
export const fileDigest = (bytes: Uint8Array): string => {
  const digest = digestsOfFiles.get(bytes) ?? sha256Hex(bytes);
  digestsOfFiles.set(bytes, digest);
  return digest;
};

const canonical = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(canonical);
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value as Record<string, unknown>)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, inner]) => [key, canonical(inner)]),
  );
};

/** A walk rather than a pattern, which takes quadratic time on a long run of blanks within a line. */
const withoutTrailingBlanks = (line: string): string => {
  let end = line.length;
  while (end > 0 && (line[end - 1] === ' ' || line[end - 1] === '\t')) end -= 1;
  return line.slice(0, end);
};

/**
 * Digest of a record's normative content: all front-matter fields but the informative ones of the schema (status,
 * approvals), keys in order, and the body with LF line ends and without blanks at line ends and blank lines around it. Comments,
 * quoting and the order of fields in the file do not matter.
 */
export const recordDigest = (record: TechnicalRecord, type: RecordType | undefined): string => {
  const known = digestsOfRecords.get(record);
  if (known && known.type === type) return known.digest;
  const digest = digestOf(record, type);
  digestsOfRecords.set(record, { type, digest });
  return digest;
};

const digestsOfRecords = new WeakMap<
  TechnicalRecord,
  { readonly type: RecordType | undefined; readonly digest: string }
>();

const digestOf = (record: TechnicalRecord, type: RecordType | undefined): string => {
  const informative = type?.informative ?? new Set(['status', 'approvals']);
  const fields = Object.fromEntries(Object.entries(record.fields).filter(([name]) => !informative.has(name)));
  const lines = record.body.split('\n').map(withoutTrailingBlanks);
  const first = lines.findIndex((line) => line !== '');
  const last = lines.findLastIndex((line) => line !== '');
  const body = lines.slice(Math.max(0, first), last + 1).join('\n');
  return sha256Hex(utf8ToBytes(`${JSON.stringify(canonical(fields))}\n${body}`));
};

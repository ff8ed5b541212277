import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { TechnicalRecord } from '../records/record.ts';
import type { RecordType } from '../records/schema-set.ts';

/** SHA-256 of bytes as 64 hexadecimal digits. */
export const sha256Hex = (bytes: Uint8Array): string => bytesToHex(sha256(bytes));

const canonical = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(canonical);
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value as Record<string, unknown>)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, inner]) => [key, canonical(inner)]),
  );
};

/**
 * Digest of a record's normative content: all front-matter fields but the informative ones of the schema (status,
 * approvals), keys in order, and the body with LF line ends and without blanks at line ends or around it. Comments,
 * quoting and the order of fields in the file do not matter.
 */
export const recordDigest = (record: TechnicalRecord, type: RecordType | undefined): string => {
  const informative = type?.informative ?? new Set(['status', 'approvals']);
  const fields = Object.fromEntries(Object.entries(record.fields).filter(([name]) => !informative.has(name)));
  const body = record.body
    .split('\n')
    .map((line) => line.replace(/[ \t]+$/, ''))
    .join('\n')
    .trim();
  return sha256Hex(utf8ToBytes(`${JSON.stringify(canonical(fields))}\n${body}`));
};

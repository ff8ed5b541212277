import { resolveDataPath } from '../../src/evidence/evaluate.ts';
import { reliedOn } from '../../src/graph/approvals.ts';
import { recordDigest, sha256Hex } from '../../src/graph/digest.ts';
import { wordingDigests } from '../../src/graph/wording-digests.ts';
import { readRecords } from '../../src/records/read-records.ts';
import type { TechnicalRecord } from '../../src/records/record.ts';
import { readSchemas } from '../../src/records/schema-set.ts';
import type { SourceFile } from '../../src/records/source-file.ts';
import { ownSchemas } from '../support/technical-file.ts';
import { daysOfChange, textsBefore } from './earlier-texts.ts';

export type Tree = Map<string, string | Uint8Array>;

const schemas = readSchemas(ownSchemas);
const decoder = new TextDecoder();
const encoder = new TextEncoder();

const textOf = (content: string | Uint8Array): string =>
  typeof content === 'string' ? content : decoder.decode(content);
const sourceOf = ([path, content]: readonly [string, string | Uint8Array]): SourceFile => ({
  path,
  bytes: typeof content === 'string' ? encoder.encode(content) : content,
});

/** Records by the path and the text they were read from: a fault changes one file, and the others need no second reading. */
const readBefore = new Map<string, readonly TechnicalRecord[]>();

const recordsOf = (tree: Tree): readonly TechnicalRecord[] => {
  const settings = [...tree].filter(([path]) => path === 'plinth.yaml').map(sourceOf);
  const key = ([path, content]: readonly [string, string | Uint8Array]): string =>
    `${path}\n${textOf(content)}`;
  const texts = [...tree].filter(([path]) => path.endsWith('.md'));
  const unread = texts.filter((entry) => !readBefore.has(key(entry)));
  const { records } = readRecords([...settings, ...unread.map(sourceOf)], [], schemas);
  for (const entry of unread)
    readBefore.set(
      key(entry),
      records.filter((record) => record.file === entry[0]),
    );
  return texts.flatMap((entry) => readBefore.get(key(entry)) ?? []);
};

/**
 * Fills in the digests of the demonstration file as if everybody had signed what was there on the day of the approval:
 * the SHA-256 of raw data, and in every approval the digest of the record and of the records that it relies on. Each
 * is that of the text as it read on that day.
 */
export const seal = (tree: Tree): Tree => {
  const withData = sealData(tree);
  const now = digestsOf(withData);
  const states = daysOfChange.map((day) => ({
    day,
    digests: new Map([...now, ...digestsOf(textsBefore(withData, dayBefore(day)))]),
  }));
  const digestsOn = (date: string): ReadonlyMap<string, string> =>
    states.find(({ day }) => date < day)?.digests ?? now;
  const sealed: Tree = new Map(withData);
  for (const record of recordsOf(withData)) {
    const text = textOf(withData.get(record.file) ?? '');
    const approvals = (record.fields['approvals'] ?? []) as readonly { readonly date: string }[];
    if (!Array.isArray(approvals) || approvals.length === 0) continue;
    const targets = reliedOn(record).filter((id) => now.has(id));
    let index = -1;
    const out: string[] = [];
    let skipping = false;
    for (const line of text.split('\n')) {
      if (skipping && /^ {6}\S/.test(line)) continue;
      skipping = false;
      if (/^ {4}relies_on:/.test(line)) {
        skipping = true;
        continue;
      }
      if (!/^ {4}digest: /.test(line)) {
        out.push(line);
        continue;
      }
      index += 1;
      const digests = digestsOn(approvals[index]?.date ?? '');
      out.push(`    digest: "${digests.get(record.id)}"`);
      const known = targets.filter((id) => digests.has(id));
      if (known.length > 0)
        out.push('    relies_on:', ...known.map((id) => `      ${id}: "${digests.get(id)}"`));
    }
    sealed.set(record.file, out.join('\n'));
  }
  return sealed;
};

const dayBefore = (day: string): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) - 86_400_000).toISOString().slice(0, 10);

const digestBefore = new WeakMap<TechnicalRecord, string>();

const digestOnce = (record: TechnicalRecord): string => {
  const digest = digestBefore.get(record) ?? recordDigest(record, schemas.types.get(record.type));
  digestBefore.set(record, digest);
  return digest;
};

const digestsOf = (tree: Tree): ReadonlyMap<string, string> =>
  new Map([...recordsOf(tree).map((record) => [record.id, digestOnce(record)] as const), ...phrasesOf(tree)]);

const phrasesOf = (tree: Tree): readonly (readonly [string, string])[] => {
  const settings = [...tree].filter(([path]) => path === 'plinth.yaml').map(sourceOf);
  return wordingDigests(readRecords(settings, [], schemas).project.fields);
};

/** Writes the digest of each raw-data file behind `sha256:` in the record that names it. */
const sealData = (tree: Tree): Tree => {
  const result: Tree = new Map(tree);
  for (const record of recordsOf(tree)) {
    const fields = record.fields as { data?: { file?: string }; study?: { file?: string } };
    const file = fields.data?.file ?? fields.study?.file;
    const path = file === undefined ? undefined : resolveDataPath(record, file);
    const content = path === undefined ? undefined : tree.get(path);
    if (content === undefined) continue;
    const digest = sha256Hex(sourceOf([path ?? '', content]).bytes);
    result.set(
      record.file,
      textOf(tree.get(record.file) ?? '').replace(/^(\s+sha256: ).*$/m, `$1"${digest}"`),
    );
  }
  return result;
};

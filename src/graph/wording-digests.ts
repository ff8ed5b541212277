import { utf8ToBytes } from '@noble/hashes/utils.js';
import type { PlinthFields } from '../records/fields.ts';
import { takenIn } from '../records/prose.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { sha256Hex } from './digest.ts';

/**
 * Sentences of a document hold words that stand elsewhere: `:claim[CM-01]`, `:phrase[storage]`. Whoever approved the
 * document has approved these words too, so its approval stores their digests and lapses with them. What view blocks
 * draw, and the results behind `:value[...]`, is computed from the whole file: an approval that lapsed with every
 * reading would soon be given unread. Of these `impact` tells, and the checks that compare days.
 */
const keyOfWording = (name: string): string => `phrases.${name}`;

/** The wording of plinth.yaml that a key among what an approval relies on stands for; undefined for ids of records. */
export const wordingOfKey = (key: string): string | undefined =>
  key.startsWith('phrases.') ? key.slice('phrases.'.length) : undefined;

/** Digest of each wording of plinth.yaml, by its key. */
export const wordingDigests = (project: PlinthFields): readonly (readonly [string, string])[] =>
  Object.entries(project.phrases ?? {}).map(
    ([name, words]) => [keyOfWording(name), sha256Hex(utf8ToBytes(words))] as const,
  );

/** Ids of claims and keys of wordings that the sentences of a document take in. A document that is written for each record bears the approvals of that record. */
export const wordsTakenIn = (record: TechnicalRecord): readonly string[] => {
  if (record.type !== 'document' || record.fields['for_each'] !== undefined) return [];
  const known = taken.get(record) ?? [
    ...takenIn(record.body, 'claim').map(({ label }) => label),
    ...takenIn(record.body, 'phrase').map(({ label }) => keyOfWording(label)),
  ];
  taken.set(record, known);
  return known;
};

const taken = new WeakMap<TechnicalRecord, readonly string[]>();

import { sha256Hex } from '../graph/digest.ts';

/** Names that one system or another keeps for devices, whatever follows the first dot. */
const reserved = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i;

const longestName = 80;

const shortDigest = (text: string): string => sha256Hex(new TextEncoder().encode(text)).slice(0, 10);

/**
 * A name for a file that every system takes, and that leads nowhere else: letters, digits, `.`, `_` and `-`. A name that
 * had to be changed ends in part of the digest of what it stands for.
 */
export const safeName = (text: string): string => {
  const plain = text.replace(/[^A-Za-z0-9._-]/g, '_').slice(0, longestName);
  const isSame =
    plain === text && plain !== '' && !/^[.-]|\.$/.test(plain) && !reserved.test(plain) && plain !== 'index';
  return isSame ? plain : `${plain.replace(/^[.-]+|\.+$/g, '') || 'x'}-${shortDigest(text)}`;
};

/**
 * Paths in one folder for names of things. Some systems do not tell `a` from `A`: where two names differ in nothing
 * else, the later one is told apart by part of its digest.
 */
export const pathsFor = (
  names: Iterable<string>,
  pathOf: (safe: string) => string,
): ReadonlyMap<string, string> => {
  const taken = new Set<string>();
  const paths = new Map<string, string>();
  for (const name of names) {
    const safe = name.split('/').map(safeName).join('/');
    const isTaken = taken.has(safe.toLowerCase());
    const unique = isTaken ? `${safe}-${shortDigest(name)}` : safe;
    taken.add(unique.toLowerCase());
    paths.set(name, pathOf(unique));
  }
  return paths;
};

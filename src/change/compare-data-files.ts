import { sha256Hex } from '../graph/digest.ts';
import type { FileState } from './file-state.ts';

/** A raw-data file that differs between two states. */
export interface DataFileChange {
  readonly path: string;
  readonly kind: 'added' | 'removed' | 'changed';
  readonly digestBefore?: string;
  readonly digestAfter?: string;
  /** Records that name the file in either state, in order of id. */
  readonly records: readonly string[];
}

const dataFile = /\.csv$/i;

/** Records by the raw-data file that they name. */
const namedFiles = (state: FileState): ReadonlyMap<string, readonly string[]> => {
  const byPath = new Map<string, string[]>();
  for (const { record, dataFile: path } of state.evidence.values())
    if (path !== undefined) byPath.set(path, [...(byPath.get(path) ?? []), record]);
  return byPath;
};

/** Raw-data files whose bytes differ, in order of path. A file that was only moved or renamed is not among them. */
export const compareDataFiles = (before: FileState, after: FileState): readonly DataFileChange[] => {
  const namedBefore = namedFiles(before);
  const namedAfter = namedFiles(after);
  const paths = [...new Set([...before.files.keys(), ...after.files.keys()])]
    .filter((path) => dataFile.test(path))
    .sort((a, b) => (a < b ? -1 : 1));
  const changes = paths.flatMap((path): readonly DataFileChange[] => {
    const old = before.files.get(path);
    const now = after.files.get(path);
    if (old && now && sameBytes(old.bytes, now.bytes)) return [];
    return [
      {
        path,
        kind: old ? (now ? 'changed' : 'removed') : 'added',
        ...(old ? { digestBefore: sha256Hex(old.bytes) } : {}),
        ...(now ? { digestAfter: sha256Hex(now.bytes) } : {}),
        records: [...new Set([...(namedAfter.get(path) ?? []), ...(namedBefore.get(path) ?? [])])],
      },
    ];
  });
  const gone = new Set(changes.flatMap((each) => (each.kind === 'removed' ? (each.digestBefore ?? []) : [])));
  const come = new Set(changes.flatMap((each) => (each.kind === 'added' ? (each.digestAfter ?? []) : [])));
  return changes.filter(
    (each) =>
      !(
        (each.kind === 'removed' && come.has(each.digestBefore ?? '')) ||
        (each.kind === 'added' && gone.has(each.digestAfter ?? ''))
      ),
  );
};

const sameBytes = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, index) => byte === b[index]);

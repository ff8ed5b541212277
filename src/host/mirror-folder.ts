import { existsSync, readdirSync, readFileSync, rmdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve, sep } from 'node:path';
import { makeFolder } from './make-folder.ts';
import { writeWhole } from './write-files.ts';

/** Names the files that the last run wrote into a folder, so that the next one takes away only its own. */
const listName = '.plinth-files';

const isBelow = (folder: string, path: string): boolean =>
  resolve(path).startsWith(`${resolve(folder)}${sep}`);

const listed = (folder: string): readonly string[] => {
  const path = join(folder, listName);
  return existsSync(path) ? readFileSync(path, 'utf8').split('\n').filter(Boolean) : [];
};

const isSame = (path: string, bytes: Uint8Array): boolean => {
  try {
    return readFileSync(path).equals(bytes);
  } catch {
    return false;
  }
};

/**
 * Brings a folder in line with a list of files: writes what differs, takes away what an earlier run wrote and this one
 * did not. Files that somebody else put there stay. Throws where a path leads out of the folder. Returns whether anything
 * differed.
 */
export const mirrorFolder = (
  folder: string,
  files: Iterable<{ readonly path: string; readonly content: string | Uint8Array }>,
): boolean => {
  const before = listed(folder);
  const written = new Set<string>();
  const made = new Set<string>();
  let isChanged = false;
  for (const { path, content } of files) {
    const target = join(folder, path);
    if (!isBelow(folder, target) || written.has(path))
      throw new Error(`a page has a path of its own: ${path}`);
    written.add(path);
    const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
    if (isSame(target, bytes)) continue;
    isChanged = true;
    const parent = dirname(target);
    if (!made.has(parent)) {
      makeFolder(parent);
      made.add(parent);
    }
    // Pages are made anew at any time, so a half-written one is no loss; thousands of renames would be.
    writeFileSync(target, bytes);
  }
  const parents = new Set<string>();
  for (const path of before) {
    const target = join(folder, path);
    if (written.has(path) || !isBelow(folder, target)) continue;
    isChanged = true;
    rmSync(target, { force: true });
    parents.add(dirname(target));
  }
  for (const parent of parents)
    if (isBelow(folder, parent) && existsSync(parent) && readdirSync(parent).length === 0) rmdirSync(parent);
  writeWhole(join(folder, listName), `${[...written].join('\n')}\n`);
  return isChanged;
};

import { accessSync, constants, existsSync, realpathSync, rmdirSync, type Stats, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { projectFile } from '../records/project.ts';
import { makeFolder } from './make-folder.ts';
import { isInside, systemMessage } from './read-folder.ts';

/** The place with links followed, as far as it is there. */
const realPlace = (path: string): string => {
  try {
    return realpathSync(path);
  } catch {
    const parent = dirname(path);
    return parent === path ? path : join(realPlace(parent), basename(path));
  }
};

const statOf = (path: string): Stats | undefined => {
  try {
    return statSync(path);
  } catch {
    return undefined;
  }
};

/** The same folder by another name too, as on disks that don't tell upper case from lower. */
const isSameFolder = (one: string, other: string): boolean => {
  if (one === other) return true;
  const [a, b] = [statOf(one), statOf(other)];
  return a !== undefined && b !== undefined && a.ino !== 0 && a.dev === b.dev && a.ino === b.ino;
};

/** A place and all that it lies in. */
const waysUp = (path: string): readonly string[] => {
  const parent = dirname(path);
  return parent === path ? [path] : [path, ...waysUp(parent)];
};

/**
 * Whether something written to this place would become part of a technical file: of the one that is named, or of
 * another one, which is known by its plinth.yaml. Links are followed.
 */
export const isInTechnicalFile = (place: string, root: string | undefined): boolean => {
  const above = waysUp(realPlace(place));
  const top = root === undefined ? undefined : realPlace(root);
  return above.some(
    (each) =>
      (top !== undefined && isSameFolder(each, top)) ||
      (statOf(each)?.isDirectory() === true && existsSync(join(each, projectFile))),
  );
};

/** Whether a technical file lies in this folder, so that what replaces the folder would replace it too. */
export const holdsTechnicalFile = (folder: string, root: string): boolean =>
  isInside(realPlace(folder), realPlace(root));

/** Why no file can be written into a folder, found out by trying; undefined where it can. Leaves nothing behind. */
export const folderFault = (folder: string): string | undefined => {
  let made: readonly string[] = [];
  try {
    made = makeFolder(folder);
    accessSync(folder, constants.W_OK);
    return undefined;
  } catch (error) {
    return systemMessage(error);
  } finally {
    for (const each of made) if (statOf(each)) rmdirSync(each);
  }
};

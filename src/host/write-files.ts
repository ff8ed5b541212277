import { existsSync, readFileSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { makeFolder } from './make-folder.ts';

/** Writes a file under a temporary name and renames it, so that nobody ever sees half of it. */
export const writeWhole = (path: string, content: string | Uint8Array): void => {
  makeFolder(dirname(path));
  const temporary = join(dirname(path), `.${process.pid}.${Math.trunc(process.hrtime()[1])}.part`);
  try {
    writeFileSync(temporary, content);
    renameSync(temporary, path);
  } catch (error) {
    rmSync(temporary, { force: true });
    throw error;
  }
};

/** Writes a file only where none of that name exists. Returns false where one does. */
export const writeNew = (path: string, content: string): boolean => {
  if (existsSync(path)) return false;
  writeWhole(path, content);
  return true;
};

/** A file that is there, and what is to stand in it. */
export interface Replacement {
  readonly path: string;
  readonly before: Uint8Array;
  readonly after: Uint8Array;
}

/**
 * Replaces several files, all or none. All are written beside their places first; where one cannot be put in its
 * place, those before it get their old content back. Links and permissions stay. Returns the first path whose content
 * is no longer `before`: then nothing was written.
 */
export const replaceTogether = (files: readonly Replacement[]): string | undefined => {
  const staged: { readonly place: string; readonly temporary: string; readonly before: Uint8Array }[] = [];
  let done = 0;
  try {
    for (const [index, { path, before, after }] of files.entries()) {
      const place = realpathSync(path);
      if (!readFileSync(place).equals(before)) return path;
      const temporary = join(dirname(place), `.${process.pid}.${index}.part`);
      staged.push({ place, temporary, before });
      writeFileSync(temporary, after, { mode: statSync(place).mode });
    }
    for (const { place, temporary } of staged) {
      renameSync(temporary, place);
      done += 1;
    }
    return undefined;
  } catch (error) {
    for (const { place, before } of staged.slice(0, done)) writeFileSync(place, before);
    throw error;
  } finally {
    for (const { temporary } of staged) rmSync(temporary, { force: true });
  }
};

/**
 * Puts a folder of files in its place as a whole: all are written under a temporary name beside it, and the folder is
 * renamed. A folder that is there by this name is replaced; where something fails, it stays as it was.
 *
 * @param files contents by path from the folder, with forward slashes
 */
export const writeFolder = (path: string, files: ReadonlyMap<string, string | Uint8Array>): void => {
  const parent = dirname(path);
  makeFolder(parent);
  const mark = `${process.pid}.${Math.trunc(process.hrtime()[1])}`;
  const temporary = join(parent, `.${mark}.part`);
  const old = join(parent, `.${mark}.old`);
  try {
    for (const [name, content] of files) {
      const place = join(temporary, ...name.split('/'));
      makeFolder(dirname(place));
      writeFileSync(place, content);
    }
    if (existsSync(path)) renameSync(path, old);
    try {
      renameSync(temporary, path);
    } catch (error) {
      if (existsSync(old)) renameSync(old, path);
      throw error;
    }
  } finally {
    rmSync(temporary, { recursive: true, force: true });
    rmSync(old, { recursive: true, force: true });
  }
};

import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** Writes a file under a temporary name and renames it, so that nobody ever sees half of it. */
export const writeWhole = (path: string, content: string | Uint8Array): void => {
  mkdirSync(dirname(path), { recursive: true });
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

import { readFileSync, realpathSync, statSync } from 'node:fs';
import { isAbsolute, join } from 'node:path';
import { isInside, systemMessage } from './read-folder.ts';

export type InsideFile =
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly reason: string };

/**
 * Reads one file of a folder by its path from there. Links are followed; what lies outside of the folder is not read.
 *
 * @param largest bytes of the largest file that is read
 */
export const readInside = (root: string, path: string, largest: number): InsideFile => {
  const outside = { ok: false, reason: 'it lies outside of the technical file' } as const;
  if (isAbsolute(path) || /^[A-Za-z]:/.test(path) || path.includes('\0')) return outside;
  try {
    const top = realpathSync(root);
    const real = realpathSync(join(top, path));
    if (!isInside(top, real)) return outside;
    const stat = statSync(real);
    if (!stat.isFile()) return { ok: false, reason: 'it is no file' };
    if (stat.size > largest) return { ok: false, reason: `it is larger than ${largest / 1_000_000} MB` };
    return { ok: true, bytes: new Uint8Array(readFileSync(real)) };
  } catch (error) {
    return { ok: false, reason: systemMessage(error) };
  }
};

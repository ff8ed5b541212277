import { lstatSync, readdirSync, readFileSync, realpathSync, type Stats, statSync } from 'node:fs';
import { isAbsolute, join, relative, sep } from 'node:path';
import { largestFileBytes, type RefusedFile, type SourceFile } from '../records/source-file.ts';

export interface FolderContent {
  readonly files: readonly SourceFile[];
  readonly refused: readonly RefusedFile[];
}

const wanted = /\.(md|csv|ya?ml|json|svg|png)$/i;
const record = /\.md$/i;
const passedOver = new Set(['node_modules', '.git']);

const isPassedOver = (name: string): boolean => name.startsWith('.') || passedOver.has(name);

/** Whether a file below the root is one that is read, by its path alone. */
export const isReadable = (path: string): boolean => wanted.test(path) && !path.split('/').some(isPassedOver);

/**
 * Reads a technical file's folder: Markdown, CSV, YAML, JSON and pictures (SVG, PNG), in order of path. Links are followed only while they
 * stay inside the root; a folder or a record that is there by two names is read once, under its own name. Hidden
 * files and folders are passed over. Throws what the system throws where the root itself cannot be read.
 */
export const readFolder = (root: string): FolderContent => {
  const files: SourceFile[] = [];
  const refused: RefusedFile[] = [];
  const top = realpathSync(root);
  const seen = new Set<string>();
  /** Links, looked at after everything that has its own name. */
  const links: string[] = [];
  const refuse = (path: string, reason: RefusedFile['reason'], detail: string): void => {
    refused.push({ path, reason, detail });
  };
  const readFile = (path: string, stat: Stats): void => {
    if (!stat.isFile()) refuse(path, 'not-a-file', 'only plain files are read');
    else if (stat.size > largestFileBytes) refuse(path, 'too-large', sizeText(stat.size));
    else files.push({ path, bytes: readFileSync(join(top, path)) });
  };
  const enter = (path: string, stat: Stats, real: string): void => {
    const name = path.slice(path.lastIndexOf('/') + 1);
    if (!stat.isDirectory() && !wanted.test(name)) return;
    if (stat.isDirectory() || record.test(name)) {
      if (seen.has(real)) return;
      seen.add(real);
    }
    if (stat.isDirectory()) walk(path);
    else readFile(path, stat);
  };
  const walk = (folder: string): void => {
    for (const name of readdirSync(join(top, folder)).sort(byCodeUnit)) {
      if (isPassedOver(name)) continue;
      const path = folder === '' ? name : `${folder}/${name}`;
      try {
        const stat = lstatSync(join(top, path));
        if (stat.isSymbolicLink()) links.push(path);
        else enter(path, stat, join(top, ...path.split('/')));
      } catch (error) {
        refuse(path, 'unreadable', systemMessage(error));
      }
    }
  };
  seen.add(top);
  walk('');
  for (let at = 0; at < links.length; at += 1) {
    const path = links[at] as string;
    try {
      const real = realpathSync(join(top, path));
      const stat = statSync(real);
      if (!isInside(top, real)) {
        if (stat.isDirectory() || wanted.test(path))
          refuse(path, 'outside-root', 'it is a link to a place outside');
      } else enter(path, stat, real);
    } catch (error) {
      refuse(path, 'unreadable', `it is a link: ${systemMessage(error)}`);
    }
  }
  const byPath = (a: { readonly path: string }, b: { readonly path: string }): number =>
    byCodeUnit(a.path, b.path);
  return { files: files.sort(byPath), refused: refused.sort(byPath) };
};

/** The same order in every locale. */
const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Whether a real path lies within a real folder, or is it. */
export const isInside = (top: string, real: string): boolean => {
  const way = relative(top, real);
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
};

/** Rounded up, so that a file one byte too large is not told to have the size that is allowed. */
const sizeText = (bytes: number): string =>
  `${(Math.ceil((bytes * 10) / 1024 / 1024) / 10).toFixed(1)} MB, at most ${largestFileBytes / 1024 / 1024} MB are read`;

/** What the system says, without the path of this machine. */
export const systemMessage = (error: unknown): string => {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  const words: Readonly<Record<string, string>> = {
    ENOENT: 'no such file or folder',
    EACCES: 'permission denied',
    EPERM: 'operation not permitted',
    ENOTDIR: 'not a folder',
    EISDIR: 'it is a folder',
    EEXIST: 'there is a file of that name',
    ENAMETOOLONG: 'the name is too long',
    EROFS: 'the file system is read-only',
    ENOSPC: 'no space left on the device',
    ELOOP: 'links lead in a circle',
  };
  return Object.hasOwn(words, code) ? (words[code] ?? code) : code || 'unknown error';
};

import { lstatSync, readdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { largestFileBytes, type RefusedFile, type SourceFile } from '../records/source-file.ts';

export interface FolderContent {
  readonly files: readonly SourceFile[];
  readonly refused: readonly RefusedFile[];
}

const wanted = /\.(md|csv|yaml|json)$/i;
const passedOver = new Set(['node_modules', '.git']);

/**
 * Reads a technical file's folder: Markdown, CSV, YAML and JSON, in an order that is the same everywhere. Links are
 * followed only while they stay inside the root; hidden files and folders are passed over.
 */
export const readFolder = (root: string): FolderContent => {
  const files: SourceFile[] = [];
  const refused: RefusedFile[] = [];
  const top = realpathSync(root);
  const seen = new Set<string>();
  const walk = (folder: string, prefix: string): void => {
    const real = realpathSync(folder);
    if (seen.has(real)) return;
    seen.add(real);
    const names = readdirSync(folder).sort((a, b) => (a < b ? -1 : 1));
    for (const name of names) {
      if (name.startsWith('.') || passedOver.has(name)) continue;
      const full = join(folder, name);
      const path = prefix === '' ? name : `${prefix}/${name}`;
      try {
        const link = lstatSync(full).isSymbolicLink();
        if (link) {
          const target = realpathSync(full);
          const inside = relative(top, target);
          if (inside === '..' || inside.startsWith(`..${sep}`) || inside.startsWith(sep)) {
            if (wanted.test(name) || statSync(full).isDirectory())
              refused.push({
                path,
                reason: 'outside-root',
                detail: 'it is a link to a place outside',
              });
            continue;
          }
        }
        const stat = statSync(full);
        if (stat.isDirectory()) walk(full, path);
        else if (!wanted.test(name)) continue;
        else if (!stat.isFile())
          refused.push({
            path,
            reason: 'not-a-file',
            detail: 'only plain files are read',
          });
        else if (stat.size > largestFileBytes)
          refused.push({
            path,
            reason: 'too-large',
            detail: `${(stat.size / 1024 / 1024).toFixed(1)} MB, at most ${largestFileBytes / 1024 / 1024} MB are read`,
          });
        else files.push({ path, bytes: readFileSync(full) });
      } catch (error) {
        if (wanted.test(name))
          refused.push({
            path,
            reason: 'unreadable',
            detail: systemMessage(error),
          });
      }
    }
  };
  walk(top, '');
  return { files, refused };
};

/** What the system says, without the path of this machine. */
export const systemMessage = (error: unknown): string => {
  const code = (error as NodeJS.ErrnoException).code;
  const words: Record<string, string> = {
    ENOENT: 'no such file or folder',
    EACCES: 'permission denied',
    EPERM: 'operation not permitted',
    ENOTDIR: 'not a folder',
    EISDIR: 'it is a folder',
    EROFS: 'the file system is read-only',
    ENOSPC: 'no space left on the device',
    ELOOP: 'links lead in a circle',
  };
  return words[code ?? ''] ?? code ?? 'unknown error';
};

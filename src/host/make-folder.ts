import { mkdirSync, statSync } from 'node:fs';
import { dirname } from 'node:path';

/**
 * Makes a folder and those above it that are missing. Returns those that were made, the deepest first. Throws what the
 * system throws.
 *
 * Node's own way to make several at once tries again for ever where the system says that a folder which is there is not
 * (below /proc, for example); here each is tried once.
 */
export const makeFolder = (path: string): readonly string[] => {
  const missing: string[] = [];
  for (let at = path; !isFolder(at); at = dirname(at)) {
    missing.push(at);
    if (dirname(at) === at) break;
  }
  for (const each of missing.toReversed())
    try {
      mkdirSync(each);
    } catch (error) {
      // Another process may have made it meanwhile.
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST' || !isFolder(each)) throw error;
    }
  return missing;
};

const isFolder = (path: string): boolean => {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
};

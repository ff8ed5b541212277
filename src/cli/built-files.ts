import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Document } from '../document/model.ts';
import { sha256Hex } from '../graph/digest.ts';

/** Name of the list that a build leaves beside its files. */
export const builtFilesName = 'built-files.json';

/** A file of a build. */
export interface BuiltFile {
  readonly file: string;
  /** Digest of all that went into it, but for when and from which state it was compiled. */
  readonly inputs: string;
  /** Digest of its bytes. */
  readonly sha256: string;
}

/** Where a document came from changes with every commit and every day, whether or not the document does. */
const timeOfCompiling: ReadonlySet<string> = new Set(['Stated as of', 'Content digest', 'Git revision']);

/**
 * Digest of what a file of a document is made from: all that the document says and is shown with, the house style, the
 * tool. Two files with the same one differ at most in the state that they name as their origin.
 *
 * @param tool the tool in its very build
 */
export const inputsDigest = (
  document: Document,
  {
    format,
    house,
    tool,
  }: { readonly format: string; readonly house?: string | undefined; readonly tool: string },
): string => {
  const mentioned = new Set<string>();
  const { recordTitles, elsewhere, provenance, ...said } = document;
  const text = JSON.stringify(
    { ...said, provenance: provenance.filter(({ name }) => !timeOfCompiling.has(name)) },
    (_key, value: unknown) => {
      if (typeof value === 'object' && value !== null && 'kind' in value && 'id' in value)
        mentioned.add(String(value.id));
      return value;
    },
  );
  // Of all titles and places in the technical file only those show that the document refers to.
  const titles = [...mentioned]
    .sort()
    .map((id) => [id, recordTitles.get(id) ?? null, elsewhere?.get(id) ?? null]);
  return sha256Hex(new TextEncoder().encode(JSON.stringify([tool, format, house ?? null, titles, text])));
};

const isBuiltFile = (value: unknown): value is BuiltFile =>
  typeof value === 'object' &&
  value !== null &&
  ['file', 'inputs', 'sha256'].every((key) => typeof (value as Record<string, unknown>)[key] === 'string');

/** What the last build left in a folder; nothing where there is no list, or one that cannot be read. */
export const readBuiltFiles = (folder: string): ReadonlyMap<string, BuiltFile> => {
  try {
    const list = JSON.parse(readFileSync(join(folder, builtFilesName), 'utf8')) as { files?: unknown };
    const files = Array.isArray(list.files) ? list.files.filter(isBuiltFile) : [];
    return new Map(files.map((each) => [each.file, each]));
  } catch {
    return new Map();
  }
};

/** The list, to be written beside the files. */
export const builtFilesText = (files: Iterable<BuiltFile>): string =>
  `${JSON.stringify(
    {
      about: 'Files that "plinth build" wrote. Those whose inputs are the same are left as they are.',
      files: [...files].sort((a, b) => (a.file < b.file ? -1 : 1)),
    },
    null,
    2,
  )}\n`;

/** The bytes of a file, where it lies in the folder just as it was written. */
export const unchangedBytes = (folder: string, built: BuiltFile | undefined): Uint8Array | undefined => {
  if (!built) return undefined;
  try {
    const bytes = new Uint8Array(readFileSync(join(folder, built.file)));
    return sha256Hex(bytes) === built.sha256 ? bytes : undefined;
  } catch {
    return undefined;
  }
};

import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { readOwnSchemas } from '../../src/host/own-files.ts';
import type { Inputs } from '../../src/pipeline.ts';
import type { SourceFile } from '../../src/records/source-file.ts';

export const projectRoot = new URL('../..', import.meta.url).pathname.replace(/\/$/, '');

export const ownSchemas = readOwnSchemas();

/** A technical file held in memory: path to text or bytes. */
export type MemoryFiles = ReadonlyMap<string, string | Uint8Array>;

/** The same text gives the same bytes object: what is the same as before is not read a second time. */
const bytesOfText = new Map<string, Uint8Array>();

const encoded = (text: string): Uint8Array => {
  const bytes = bytesOfText.get(text) ?? new TextEncoder().encode(text);
  bytesOfText.set(text, bytes);
  return bytes;
};

export const inputsFrom = (files: MemoryFiles, asOf = '2026-11-20'): Inputs => ({
  files: [...files].map(
    ([path, content]): SourceFile => ({
      path,
      bytes: typeof content === 'string' ? encoded(content) : content,
    }),
  ),
  refused: [],
  schemas: ownSchemas,
  asOf,
  today: asOf,
  toolVersion: '0.0.0-test',
});

/** All Markdown, YAML, CSV and JSON files and pictures below a folder of the project. */
export const readTree = (folder: string): Map<string, Uint8Array> => {
  const found = new Map<string, Uint8Array>();
  const walk = (path: string, prefix: string): void => {
    for (const name of readdirSync(path).sort()) {
      const full = join(path, name);
      if (statSync(full).isDirectory()) walk(full, `${prefix}${name}/`);
      else if (/\.(md|csv|yaml|json|svg|png)$/.test(name))
        found.set(prefix + name, new Uint8Array(readFileSync(full)));
    }
  };
  walk(join(projectRoot, folder), '');
  return found;
};

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { SchemaText } from '../records/schema-set.ts';

/** The tool's own folder: the nearest one above this file that holds package.json and schemas. */
const ownFolder = (): string => {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!(existsSync(join(folder, 'package.json')) && existsSync(join(folder, 'schemas')))) {
    const parent = dirname(folder);
    if (parent === folder)
      throw new Error('the tool is not installed completely: its folder "schemas" is missing');
    folder = parent;
  }
  return folder;
};

/** The tool's schemas: record types, plinth.yaml and, below `views`, the bodies of view blocks. */
export const readOwnSchemas = (): readonly SchemaText[] =>
  ['schemas', 'schemas/views'].flatMap((place) => {
    const folder = join(ownFolder(), place);
    return readdirSync(folder)
      .filter((name) => name.endsWith('.schema.json'))
      .sort()
      .map((name) => ({
        file: `${place}/${name}`,
        text: readFileSync(join(folder, name), 'utf8'),
        trusted: true as const,
      }));
  });

export const readOwnVersion = (): string =>
  (
    JSON.parse(readFileSync(join(ownFolder(), 'package.json'), 'utf8')) as {
      version: string;
    }
  ).version;

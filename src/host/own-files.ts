import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { SchemaText, Validator } from '../records/schema-set.ts';

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
export const readOwnSchemas = (): readonly SchemaText[] => {
  const texts = ['schemas', 'schemas/views'].flatMap((place) => {
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
  const path = ownProgram(validatorsFile(texts));
  if (path === undefined) return texts;
  // Loaded when the first record is checked: many commands check none.
  const validators = (): Readonly<Record<string, Validator>> => createRequire(import.meta.url)(path);
  return texts.map((text) => ({ ...text, compiled: () => validators()[text.file] as Validator }));
};

/** Name of the file of the bundle with what was compiled from these very schemas (.ci/compile-validators.mjs). */
export const validatorsFile = (texts: readonly SchemaText[]): string => {
  const digest = createHash('sha256').update(JSON.stringify(texts.map(({ file, text }) => [file, text])));
  return `validators-${digest.digest('hex').slice(0, 16)}.cjs`;
};

export const readOwnVersion = (): string =>
  (
    JSON.parse(readFileSync(join(ownFolder(), 'package.json'), 'utf8')) as {
      version: string;
    }
  ).version;

/** A program of the bundle that runs beside the command line; undefined where the tool runs from its source. */
export const ownProgram = (name: string): string | undefined => {
  const here = dirname(fileURLToPath(import.meta.url));
  return [join(here, name), join(here, '..', name)].find((path) => existsSync(path));
};

/** The bytes of the bundled command line, which name all of its parts by their content; undefined where there is none. */
export const readOwnProgram = (): Uint8Array | undefined => {
  const program = ownProgram('plinth.js');
  return program === undefined ? undefined : readFileSync(program);
};

/** What draws pictures of figures: the renderer's code and the fonts, regular and bold. */
export interface FigureAssets {
  readonly wasm: Uint8Array;
  readonly fonts: readonly Uint8Array[];
}

/** From the folder `figures` that the bundle has beside it, or from the packages where the tool runs from its source. */
export const readFigureAssets = (): FigureAssets => {
  const here = dirname(fileURLToPath(import.meta.url));
  const bundled = [join(here, 'figures'), join(here, '..', 'figures')].find((folder) =>
    existsSync(join(folder, figureAssets.wasm.file)),
  );
  const { resolve } = createRequire(import.meta.url);
  const read = ({ file, from }: { readonly file: string; readonly from: string }): Uint8Array =>
    readFileSync(bundled === undefined ? resolve(from) : join(bundled, file));
  return { wasm: read(figureAssets.wasm), fonts: figureAssets.fonts.map(read) };
};

/** Style sheet and scripts of the browsable copy, by name; `live.js` is for the pages of `serve` only. */
export const readSiteAssets = (names: readonly string[]): ReadonlyMap<string, string> => {
  const here = dirname(fileURLToPath(import.meta.url));
  const folder = [
    join(here, 'site'),
    join(here, '..', 'site'),
    // Where the tool runs from its source, the last bundle has them.
    join(ownFolder(), 'build', 'cli', 'site'),
  ].find((each) => existsSync(join(each, 'site.css')));
  if (folder === undefined)
    throw new Error('the tool is not installed completely: the style sheet of the browsable copy is missing');
  return new Map(names.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
};

const figureAssets = {
  wasm: { file: 'resvg.wasm', from: '@resvg/resvg-wasm/index_bg.wasm' },
  fonts: [
    { file: 'Carlito-Regular.ttf', from: '@expo-google-fonts/carlito/400Regular/Carlito_400Regular.ttf' },
    { file: 'Carlito-Bold.ttf', from: '@expo-google-fonts/carlito/700Bold/Carlito_700Bold.ttf' },
  ],
} as const;

import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { projectRoot } from './support/technical-file.ts';

/** Folder of src -> folders it may import. The flow has one direction; a new folder gets its line here. */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  findings: [],
  statistics: [],
  figures: ['statistics', 'document'],
  regulation: [],
  document: ['findings'],
  records: ['findings', 'regulation'],
  graph: ['findings', 'records'],
  evidence: ['findings', 'records', 'graph', 'statistics'],
  planning: ['statistics'],
  submission: ['findings', 'records', 'graph', 'evidence', 'regulation'],
  checks: ['submission', 'change', 'findings', 'records', 'graph', 'evidence', 'statistics', 'regulation'],
  change: ['findings', 'records', 'graph', 'evidence', 'document', 'regulation'],
  pictures: ['returned'],
  views: [
    'submission',
    'change',
    'pictures',
    'vouch',
    'planning',
    'findings',
    'records',
    'graph',
    'evidence',
    'figures',
    'document',
    'regulation',
  ],
  vouch: ['findings', 'records', 'graph', 'evidence'],
  returned: ['findings', 'records'],
  house: ['returned'],
  pages: [
    'change',
    'checks',
    'vouch',
    'findings',
    'records',
    'graph',
    'evidence',
    'figures',
    'document',
    'regulation',
    'submission',
    'views',
  ],
  writers: ['findings', 'document', 'house'],
  // Browser code, bundled apart; it shares the guard of CSV cells with the writer.
  site: ['writers'],
  host: ['findings', 'records'],
  cli: [
    'submission',
    'findings',
    'records',
    'graph',
    'evidence',
    'checks',
    'change',
    'vouch',
    'planning',
    'returned',
    'house',
    'views',
    'pages',
    'pictures',
    'document',
    'writers',
    'host',
    'regulation',
    'statistics',
    'pipeline.ts',
  ],
  'pipeline.ts': [
    'findings',
    'records',
    'regulation',
    'graph',
    'evidence',
    'checks',
    'views',
    'document',
    'writers',
  ],
};

/** Package -> folders that may import it. */
const packageHomes: Readonly<Record<string, readonly string[]>> = {
  ajv: ['records'],
  yaml: ['records'],
  'csv-parse': ['records'],
  '@atomic-ehr/ucum': ['records'],
  'fastest-levenshtein': ['records'],
  jsep: ['evidence'],
  '@noble/hashes': ['graph'],
  '@stdlib': ['statistics'],
  unified: ['document'],
  'remark-parse': ['document'],
  'remark-gfm': ['document'],
  'remark-directive': ['document'],
  'mdast-util-to-string': ['document'],
  mdast: ['document'],
  'node:': ['host', 'cli'],
  docx: ['writers'],
  fflate: ['pictures', 'returned', 'writers'],
  saxes: ['returned', 'writers'],
  'string-width': ['writers'],
  'd3-array': ['figures'],
  'p-limit': ['cli'],
  '@resvg/resvg-wasm': ['cli'],
  diff: ['change'],
};

interface Import {
  readonly file: string;
  readonly from: string;
  readonly target: string;
}

const source = join(projectRoot, 'src');

const filesBelow = (folder: string): string[] =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesBelow(path) : name.endsWith('.ts') ? [path] : [];
  });

const files = filesBelow(source);
const homeOf = (path: string): string => path.slice(source.length + 1).split('/')[0] ?? '';

const imports: Import[] = files.flatMap((path) =>
  [
    ...readFileSync(path, 'utf8').matchAll(
      /(?:^|\s)(?:import|export)\s[^;'"]*?from\s*['"]([^'"]+)['"]|import\s*\(\s*['"]([^'"]+)['"]\s*\)|^import\s+['"]([^'"]+)['"]/gm,
    ),
  ].map((match) => ({
    file: path.slice(source.length + 1),
    from: homeOf(path),
    target: match[1] ?? match[2] ?? match[3] ?? '',
  })),
);

describe('the layers of src', () => {
  test('every folder is in the table, and enough was looked at', () => {
    const homes = new Set(files.map(homeOf));
    expect([...homes].filter((home) => !(home in mayImport))).toEqual([]);
    expect(files.length).toBeGreaterThan(80);
    expect(imports.length).toBeGreaterThan(300);
  });

  test('no folder imports one that it may not', () => {
    const wrong = imports.filter(({ file, from, target }) => {
      if (!target.startsWith('.')) return false;
      const home = homeOf(join(source, file, '..', target));
      return home !== from && !(mayImport[from] ?? []).includes(home);
    });
    expect(wrong.map(({ file, target }) => `${file} imports ${target}`)).toEqual([]);
  });

  test('packages stay where they belong', () => {
    const wrong = imports.filter(({ from, target }) => {
      if (target.startsWith('.')) return false;
      const known = Object.keys(packageHomes).find(
        (name) =>
          target === name || target.startsWith(`${name}/`) || (name.endsWith(':') && target.startsWith(name)),
      );
      return known === undefined || !(packageHomes[known] ?? []).includes(from);
    });
    expect(wrong.map(({ file, target }) => `${file} imports ${target}`)).toEqual([]);
  });

  test('no folder has a name that says nothing', () => {
    const empty = new Set(['utils', 'helpers', 'common', 'core', 'lib', 'types', 'misc']);
    expect(
      files.filter((path) =>
        path
          .slice(source.length)
          .split('/')
          .some((part) => empty.has(part)),
      ),
    ).toEqual([]);
  });
});

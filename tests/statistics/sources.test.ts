import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { projectRoot } from '../support/technical-file.ts';

/** A year, a standard or a handbook: what a statistician can look up. */
const publication =
  /\b(?:1[89]\d\d|20[0-2]\d)\b|\b(?:ISO|ASTM|JCGM|NIST|USP|AIAG)\b|none, no formula of its own/;

const folder = join(projectRoot, 'src/statistics');

describe('a reader of one file alone finds where its formulas come from', () => {
  const files = readdirSync(folder).filter((name) => name.endsWith('.ts'));

  test('there are files', () => {
    expect(files.length).toBeGreaterThan(60);
  });

  test.each(files)('%s opens with its sources', (name) => {
    const text = readFileSync(join(folder, name), 'utf8');
    const opening = /^\/\*\*[\s\S]*?\*\//.exec(text)?.[0] ?? '';
    expect(opening, 'the file opens with a comment').not.toBe('');
    expect(opening).toMatch(publication);
  });
});

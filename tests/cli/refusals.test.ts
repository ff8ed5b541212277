import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const folder = emptyFolder();
mkdirSync(join(folder, 'content'));
writeFileSync(
  join(folder, 'content/plinth.yaml'),
  'device: { name: Granule applicator, maker: Harrow Lane Instruments }\n',
);
writeFileSync(join(folder, 'a-file'), '');

const cases: readonly (readonly [readonly string[], string, string])[] = [
  [['chek'], 'unknown command "chek"', 'Did you mean "plinth check"?'],
  [['check', '--formt', 'json'], 'unknown option "--formt"', 'Did you mean "--format"?'],
  [['check', '--format', 'jsn'], '--format is "jsn", expected one of: text, json', 'Did you mean "json"?'],
  [['check', '--format'], 'needs a value', 'For example'],
  [['build', '--only', 'DOC-01', '--only=DOC-02'], 'the option --only is given twice', 'Give it once'],
  [['check', '--as-of', '2026-02-30'], '--as-of is "2026-02-30", expected a date', 'Write it as 2026-06-01.'],
  [['check', 'nowhere'], 'there is no folder "nowhere"', 'plinth start'],
  [['check', 'a-file'], 'is not a folder', 'plinth.yaml'],
  [['check', 'content', 'more'], 'one argument too many', '--help'],
  [['new'], 'needs TYPE', 'plinth new'],
  [['new', 'user-ned'], 'unknown record type "user-ned"', 'Did you mean "user-need"?'],
  [['new', 'user-need', '--id', 'DI-01'], '"DI-01" is no id for a user-need', 'UN-01'],
  [['new', 'user-need', '--id', 'UN-../../x'], 'is no id', 'UN-01'],
  [['build', '--only', 'DOC-99'], 'there is no document DOC-99', 'plinth new document'],
  [['explain', 'need-without-inputs'], 'nothing to explain', 'Did you mean "need-without-input"?'],
  [['start', 'a-file'], 'is a file, not a folder', 'another folder'],
];

describe('a refusal says what is wrong and what to do, with exit code 2', () => {
  test.each(cases)('plinth %j', (words, message, hint) => {
    const { code, out, error } = runPlinth(folder, words);
    expect(error).toContain(message);
    expect(error).toContain(hint);
    expect(error).not.toMatch(/ at .*\(|\.ts:\d|node:internal/);
    expect(out).toBe('');
    expect(code).toBe(2);
  });

  test('no technical file at all', () => {
    const { code, error } = runPlinth(emptyFolder(), ['check']);
    expect(error).toContain('there is no technical file here');
    expect(code).toBe(2);
  });

  test('an output folder that is a file', () => {
    writeFileSync(
      join(folder, 'content/DOC-01.md'),
      '---\nid: DOC-01\ntype: document\ntitle: Index\nstatus: draft\nrevision: "1"\nformats: [csv, html]\n---\nText.\n',
    );
    const { code, error } = runPlinth(folder, ['build', '--output', 'a-file']);
    expect(error).toContain('no files can be written to "a-file": there is a file of that name');
    expect(error).not.toContain('bug');
    expect(code).toBe(2);
  });
});

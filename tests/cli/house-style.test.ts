import { cpSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { germanHouse, houseFile, libreOfficeHouse } from '../house/house-files.ts';
import { projectRoot } from '../support/technical-file.ts';
import { xmlParts } from '../writers/docx-parts.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const top = emptyFolder();
cpSync(join(projectRoot, 'content'), join(top, 'content'), { recursive: true });
mkdirSync(join(top, 'content/house'));
const house = join(top, 'content/house/house.dotx');
writeFileSync(house, germanHouse());
writeFileSync(join(top, 'content/house/plain.dotx'), libreOfficeHouse());
const settings = readFileSync(join(top, 'content/plinth.yaml'), 'utf8');
const line = settings.split('\n').length;
const name = (path: string): void =>
  writeFileSync(join(top, 'content/plinth.yaml'), `${settings}house_style: ${path}\n`);
const build = (...words: readonly string[]) => runPlinth(top, ['build', '--only', 'DOC-06', ...words]);
const file = 'build/DOC-06-risk-management-plan.docx';

interface HouseFinding {
  readonly code: string;
  readonly message: string;
  readonly place: { readonly file: string; readonly line: number };
}
const report = (...words: readonly string[]) => {
  const { out, code } = build('--format', 'json', ...words);
  const json = JSON.parse(out) as {
    readonly findings: readonly HouseFinding[];
    readonly houseStyles?: readonly Record<string, unknown>[];
  };
  return {
    code,
    json,
    house: json.findings.filter((finding) => finding.code.startsWith('house-style')),
  };
};

describe('a house style that plinth.yaml names', () => {
  test('gives its looks; the run says what was added and what was left out', () => {
    name('house/house.dotx');
    const { out, error, code } = build();
    expect(error).toBe('');
    expect(code).toBe(0);
    const said = out.replace(/\s+/g, ' ');
    expect(said).toContain('House style house/house.dotx: DOC-06');
    expect(said).toContain('Headings have its numbers.');
    expect(said).toContain('Added in the usual look, for it lacks them: List Paragraph, Quote, heading 4');
    expect(said).toContain('the field DATE is left out');
    expect(said).toContain(`plinth.yaml:${line}`);
    const parts = xmlParts(new Uint8Array(readFileSync(join(top, file))));
    expect(parts.get('word/styles.xml')).toContain('majorHAnsi');
    expect(parts.get('docProps/custom.xml')).toMatch(
      /name="House style"><vt:lpwstr>house\/house\.dotx<.*name="House style digest"><vt:lpwstr>[0-9a-f]{64}</,
    );
  });

  test('gives them to the Word files of other commands, too', () => {
    name('house/house.dotx');
    const { out, error, code } = runPlinth(top, ['vouch', 'DI-01', '--in', 'content', '--format', 'docx']);
    expect(error).toBe('');
    expect(code).toBe(0);
    expect(out).toContain('the field DATE is left out');
    const [, written = ''] = /Written: (\S+)/.exec(out) ?? [];
    const parts = xmlParts(new Uint8Array(readFileSync(join(top, written))));
    expect(parts.get('word/styles.xml')).toContain('majorHAnsi');
    expect(parts.get('docProps/custom.xml')).toContain('house/house.dotx');
  });

  test('says the same to programs, by the published schema', () => {
    const { json, house: found } = report();
    expect(json.houseStyles).toMatchObject([
      { file: 'house/house.dotx', documents: ['DOC-06'], headingNumbers: 'house style' },
    ]);
    expect(found.map(({ code }) => code)).toEqual(Array(3).fill('house-style-part-left-out'));
    const schema = JSON.parse(
      readFileSync(join(projectRoot, 'schemas/outputs/report.schema.json'), 'utf8'),
    ) as object;
    const validate = new Ajv2020({ strict: false }).compile(schema);
    validate(json);
    expect(validate.errors).toBeNull();
  });

  test('the same bytes on a second run', () => {
    build('--output', 'again');
    expect(readFileSync(join(top, file.replace('build', 'again')))).toEqual(readFileSync(join(top, file)));
  });

  test('another house style today is told of the file in hand, which still says the same', () => {
    const check = () => runPlinth(top, ['check', file]);
    expect(check().out.replace(/\s+/g, ' ')).toContain('It was written in the house style as it is now.');
    writeFileSync(house, libreOfficeHouse());
    expect(check().out.replace(/\s+/g, ' ')).toContain('It was not written in the house style as it is now');
    expect(check().code).toBe(0);
    expect(JSON.parse(runPlinth(top, ['check', file, '--format', 'json']).out)).toMatchObject({
      currentHouseStyle: 'no',
      currentText: 'yes',
      unedited: 'yes',
    });
    writeFileSync(house, germanHouse());
  });

  test('a document may name another one', () => {
    const record = join(top, 'content/documents/DOC-06.md');
    const text = readFileSync(record, 'utf8');
    writeFileSync(record, text.replace('\nrevision:', '\nhouse_style: house/plain.dotx\nrevision:'));
    expect(report().json.houseStyles).toMatchObject([{ file: 'house/plain.dotx', headingNumbers: 'plinth' }]);
    writeFileSync(record, text);
  });
});

describe('a house style that cannot be used is an error at its line, and the document has the usual look', () => {
  writeFileSync(join(top, 'outside.dotx'), germanHouse());
  writeFileSync(
    join(top, 'content/house/macros.docm'),
    houseFile({ styles: '', kind: 'document.macroEnabled' }),
  );
  writeFileSync(join(top, 'content/house/text.docx'), 'no Word file');
  symlinkSync(join(top, 'outside.dotx'), join(top, 'content/house/link.dotx'));
  test.each([
    ['house/gone.dotx', 'no such file'],
    ['../outside.dotx', 'outside of the technical file'],
    ['/etc/hostname', 'outside of the technical file'],
    ['house/link.dotx', 'outside of the technical file'],
    ['house', 'it is no file'],
    ['house/macros.docm', 'macros'],
    ['house/text.docx', 'no zip archive'],
  ])('%s', (path, reason) => {
    name(path);
    const { code, json, house: found } = report();
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ code: 'house-style-unusable', place: { file: 'plinth.yaml', line } });
    expect(found[0]?.message).toContain(reason);
    expect(found[0]?.message).not.toContain(top);
    expect(json.houseStyles).toBeUndefined();
    expect(code).toBe(1);
    const parts = unzipSync(new Uint8Array(readFileSync(join(top, file))));
    expect(Object.keys(parts)).not.toContain('word/theme/theme1.xml');
  });
});

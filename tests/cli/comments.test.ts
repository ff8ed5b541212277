import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { reviewer } from '../returned/reviewed-file.ts';
import { projectRoot } from '../support/technical-file.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const folder = emptyFolder();
cpSync(join(projectRoot, 'content'), join(folder, 'content'), { recursive: true });
runPlinth(folder, ['build', '--only', 'DOC-02,DOC-03,DOC-04,DOC-09']);
const clean = 'build/DOC-02-design-input-specification.docx';

const hand = reviewer(new Uint8Array(readFileSync(join(folder, clean))));
const first = hand.comment('axial pull', { author: 'R. One', text: 'At which speed?' });
hand.reply(first, { author: 'R. Two', text: 'See VP-09.' });
hand.comment('side load', { author: 'R. One', text: 'Fine.', resolved: true });
hand.replace('at least 30 N', 'at least 28 N', 'R. \u202eTwo');
writeFileSync(join(folder, 'returned.docx'), hand.save());

const lineOf = (file: string, words: string): number =>
  readFileSync(join(folder, 'content', file), 'utf8')
    .split('\n')
    .findIndex((line) => line.includes(words)) + 1;
const pull = lineOf('design-inputs/DI-09.md', 'axial pull');

describe('plinth comments', () => {
  test('tells nothing of a file that nobody touched', () => {
    const { code, out } = runPlinth(folder, ['comments', clean]);
    expect(out).toContain('0 comments, 0 of them open; 0 tracked changes.');
    expect(code).toBe(0);
  });

  test('lists marks by record, file and line, at 80 columns, without a stray control character', () => {
    const { code, out } = runPlinth(folder, ['comments', 'returned.docx']);
    expect(code).toBe(1);
    expect(out).toContain(`DI-09 design-inputs/DI-09.md:${pull}\n`);
    expect(out).toContain('comment, open (R. One, 2026-11-12): At which speed?');
    expect(out).toContain('    on "axial pull"');
    expect(out).toContain('    reply (R. Two, 2026-11-12): See VP-09.');
    expect(out).toContain('comment, resolved (R. One, 2026-11-12): Fine.');
    expect(out).toContain('deleted: "at least 30 N"');
    expect(out).toContain('inserted: "at least 28 N"');
    expect(out).toContain('2 comments, 1 of them open; 2 tracked changes.');
    expect(out).not.toContain('\u202e');
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('as JSON with everything, and as annotations of what is open', () => {
    const { out } = runPlinth(folder, ['comments', 'returned.docx', '--format', 'json']);
    const { version, record, marks } = JSON.parse(out) as {
      version: number;
      record: string;
      marks: { kind: string; record: string; open: boolean; place: { line: number } }[];
    };
    expect([version, record, marks.length]).toEqual([1, 'DOC-02', 4]);
    expect(marks.filter((mark) => mark.open)).toHaveLength(3);
    expect(marks[0]).toMatchObject({ kind: 'comment', record: 'DI-09', place: { line: pull } });
    const { out: github } = runPlinth(folder, ['comments', 'returned.docx', '--format', 'github']);
    const annotations = github.split('\n').filter((line) => line.startsWith('::warning'));
    expect(annotations).toHaveLength(3);
    expect(annotations[0]).toContain(`file=content/design-inputs/DI-09.md,line=${pull},`);
    expect(annotations[0]).toContain('title=reviewer-comment');
  });

  // In these paragraphs values and counts are filled in, or the word that was marked stands in many other places.
  test.each([
    ['DOC-03', 'The gauge study', 'gauge study', 'The gauge study'],
    ['DOC-03', 'The units aged for', 'aged', 'The units aged for'],
    ['DOC-04', 'The scales and the criteria', 'plan', 'The scales and the criteria'],
    ['DOC-04', 'A risk that is not within', 'decision', 'A risk that is not within'],
    ['DOC-09', 'The file holds', 'holds', 'The file holds'],
    ['DOC-04', 'The standing of a', 'control', 'The standing of a control'],
  ])('in %s, a comment on a word of "%s" comes home to its line', (id, within, word, line) => {
    const text = readFileSync(join(folder, 'content/documents', `${id}.md`), 'utf8');
    const wanted = text.split('\n').findIndex((each) => each.includes(line)) + 1;
    expect(wanted, 'the demonstration file says it').toBeGreaterThan(1);
    const name = readdirSync(join(folder, 'build')).find(
      (each) => each.startsWith(id) && each.endsWith('.docx'),
    );
    const marked = reviewer(new Uint8Array(readFileSync(join(folder, 'build', name ?? ''))));
    marked.comment(word, { author: 'R', text: 'Why?' }, within);
    writeFileSync(join(folder, 'marked.docx'), marked.save());
    const { out } = runPlinth(folder, ['comments', 'marked.docx']);
    expect(out).toContain(`${id} documents/${id}.md:${wanted}\n`);
  });

  test('a record that has changed since still gets its comment, at its head', () => {
    const path = join(folder, 'content/design-inputs/DI-09.md');
    const before = readFileSync(path, 'utf8');
    writeFileSync(path, before.replace(/^The tip shall stay.*$/m, 'It shall hold.'));
    const { out } = runPlinth(folder, ['comments', 'returned.docx']);
    writeFileSync(path, before);
    expect(out).toContain('DI-09 design-inputs/DI-09.md:2\n');
  });

  test.each([
    ['nothing.docx', /cannot be read/],
    ['content/plinth.yaml', /no Word file: it is no zip archive/],
  ])('refuses %s with a reason and a way out', (name, reason) => {
    const { code, error } = runPlinth(folder, ['comments', name]);
    expect(code).toBe(2);
    expect(error).toMatch(reason);
    expect(error).not.toMatch(/\n\s+at /);
  });
});

import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { writeWord } from '../../src/cli/write-word.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import { analyse } from '../../src/pipeline.ts';
import { readReview } from '../../src/returned/read-review.ts';
import { openWordPackage } from '../../src/returned/word-package.ts';
import { readXml, XmlFault } from '../../src/returned/xml-events.ts';
import { compileDocuments } from '../../src/views/compile-document.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { reviewer } from './reviewed-file.ts';

const compile = await createMarkdownCompiler();
const analysis = analyse(inputsFrom(readTree('content')), []);

const wordOf = async (id: string): Promise<Uint8Array> => {
  const [compiled] = compileDocuments({ ...analysis, waived: [] }, compile, id);
  if (!compiled) throw new Error(`there is no ${id}`);
  return writeWord(compiled.document);
};
const specification = await wordOf('DOC-02');
const matrix = await wordOf('DOC-01');

const marksOf = (bytes: Uint8Array) => {
  const opened = openWordPackage(bytes);
  if (!opened.ok) throw new Error(opened.reason);
  return readReview(opened.package);
};
const statement = 'The tip shall stay on the barrel under an axial pull of at least';

describe('the marks of reviewers', () => {
  test('a file that nobody touched has none', () => {
    expect(marksOf(specification)).toEqual([]);
  });

  test('a comment with its reply stands at its record, with the words that it is on', () => {
    const hand = reviewer(specification);
    const first = hand.comment('axial pull', { author: 'R. One', text: 'At which speed?' });
    hand.reply(first, { author: 'R. Two', text: 'See the protocol.' });
    expect(marksOf(hand.save())).toEqual([
      {
        kind: 'comment',
        author: 'R. One',
        date: '2026-11-12T09:00:00Z',
        text: 'At which speed?',
        passage: 'axial pull',
        resolved: false,
        replies: [{ author: 'R. Two', date: '2026-11-12T09:00:00Z', text: 'See the protocol.' }],
        place: expect.objectContaining({
          bookmark: 'rec_DI_09',
          nearness: 'within',
          paragraph: expect.stringContaining(statement),
        }),
      },
    ]);
  });

  test('a resolved comment over two records belongs to the first', () => {
    const hand = reviewer(specification);
    hand.commentOver('axial pull', 'The tip shall not fracture below a side', {
      author: 'R',
      text: 'Long.',
      resolved: true,
    });
    const [mark] = marksOf(hand.save());
    expect(mark).toMatchObject({ kind: 'comment', resolved: true, place: { bookmark: 'rec_DI_09' } });
    expect(mark?.kind === 'comment' && mark.passage).toMatch(
      /^axial pull of at least 30 N.*The tip shall not fracture below a side$/,
    );
  });

  test('a replacement is a deletion and an insertion; the paragraph is told as it was sent', () => {
    const hand = reviewer(specification);
    hand.replace('at least 30 N', 'at least 28 N', 'R. One');
    const marks = marksOf(hand.save());
    expect(marks).toMatchObject([
      { kind: 'change', change: 'deleted', text: 'at least 30 N', author: 'R. One' },
      { kind: 'change', change: 'inserted', text: 'at least 28 N', place: { bookmark: 'rec_DI_09' } },
    ]);
    expect(marks[1]?.place.paragraph).toContain(`${statement} 30 N`);
    expect(marks[1]?.place.paragraph).not.toContain('28 N');
  });

  test('an inserted paragraph is one change, and a change of form names its words', () => {
    const hand = reviewer(specification);
    hand.insertParagraph(statement, 'Aged units too.', 'R. One');
    hand.embolden('fresh', 'R. Two');
    const marks = marksOf(hand.save());
    expect(marks.find((mark) => mark.author === 'R. One')).toMatchObject({
      change: 'inserted',
      text: 'Aged units too.',
    });
    expect(marks.filter((mark) => mark.author === 'R. One')).toHaveLength(1);
    expect(marks.find((mark) => mark.author === 'R. Two')).toMatchObject({
      change: 'formatted',
      text: 'fresh',
    });
  });

  test('in a row of the matrix the row, not the record before the table, counts', () => {
    const hand = reviewer(matrix);
    hand.comment('Nothing breaks off', { author: 'R', text: 'Off where?' });
    expect(marksOf(hand.save())[0]?.place).toMatchObject({ bookmark: 'rec_UN_08' });
  });

  test('a comment to which no text refers is not lost', () => {
    const hand = reviewer(specification);
    const id = hand.comment('axial pull', { author: 'R', text: 'Still here.' });
    const opened = openWordPackage(hand.save());
    if (!opened.ok) throw new Error(opened.reason);
    const marks = readReview({
      ...opened.package,
      part: (name) =>
        name === 'word/document.xml'
          ? opened.package.part(name)?.replace(/<w:comment(RangeStart|RangeEnd|Reference) [^>]*>/g, '')
          : opened.package.part(name),
    });
    expect(id).toBe(0);
    expect(marks).toMatchObject([{ text: 'Still here.', place: { nearness: 'none' } }]);
  });
});

describe('bad files', () => {
  test('what is no zip archive, or holds no document, has a reason', () => {
    expect(openWordPackage(strToU8('no archive'))).toMatchObject({ ok: false, reason: /zip/ });
    expect(openWordPackage(zipSync({ 'a.txt': strToU8('x') }))).toMatchObject({ ok: false });
  });

  test('a document type is refused, so that no entity expands', () => {
    const bomb = '<!DOCTYPE w [<!ENTITY a "aaaa">]><w>&a;</w>';
    expect(() => readXml(bomb, {})).toThrow(XmlFault);
    expect(() => readXml('<w><open></w>', {})).toThrow(XmlFault);
  });
});

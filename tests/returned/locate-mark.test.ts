import { expect, test } from 'vitest';
import { contextOf } from '../../src/cli/review-context.ts';
import { writeWord } from '../../src/cli/write-word.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import { analyse } from '../../src/pipeline.ts';
import { createLocator } from '../../src/returned/locate-mark.ts';
import { readReview } from '../../src/returned/read-review.ts';
import { openWordPackage } from '../../src/returned/word-package.ts';
import { compileDocuments } from '../../src/views/compile-document.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { commentEveryParagraph } from './every-paragraph.ts';
import { reviewer } from './reviewed-file.ts';

const tree = readTree('content');
const analysis = analyse(inputsFrom(tree), []);
const compile = await createMarkdownCompiler();
const textOf = (file: string): readonly string[] =>
  new TextDecoder().decode(analysis.files.get(file)?.bytes).split('\n');

interface Home {
  readonly text: string;
  readonly row: readonly string[];
  readonly record: string | undefined;
  readonly line: number;
  /** The line of the source. */
  readonly source: string;
}

const wordOf = async (id: string): Promise<Uint8Array> => {
  const [compiled] = compileDocuments({ ...analysis, waived: [] }, compile, id);
  if (!compiled) throw new Error(`there is no ${id}`);
  return writeWord(compiled.document);
};

/** Where each mark of a returned file comes home. */
const homesOf = (id: string, bytes: Uint8Array): readonly Home[] => {
  const opened = openWordPackage(bytes);
  if (!opened.ok) throw new Error(opened.reason);
  const locate = createLocator(contextOf(id, analysis));
  return readReview(opened.package)
    .map(locate)
    .map(({ mark, record, place }) => {
      const { flow, paragraph } = mark.place;
      return {
        text: paragraph,
        row: flow?.paragraphs[flow.index]?.row ?? [],
        record,
        line: place?.line ?? 0,
        source: place ? (textOf(place.file)[place.line - 1] ?? '') : '',
      };
    });
};

/** Lines of a document that say something: headings, paragraphs, rows, captions; not marks, rules and keys of views. */
const speakingLines = (id: string): readonly number[] => {
  const lines = textOf(`documents/${id}.md`);
  const body = lines.indexOf('---', 1) + 1;
  let isView = false;
  return lines.flatMap((line, index) => {
    if (index < body) return [];
    if (line.startsWith('```')) isView = !isView;
    const speaks = isView ? line.startsWith('caption:') : /[A-Za-z0-9]/.test(line) && !line.startsWith(':::');
    return speaks ? [index + 1] : [];
  });
};

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();

/** Whether a source line can be what a paragraph was compiled from: judged by words alone, without the rules of the code. */
const saysSo = ({ text, row, source }: Home): boolean => {
  // A name of a particular belongs where its value stands.
  const words = plain(row.length === 2 ? row.join(' ') : text.replace(/^[A-Z]{2}-\d+[A-Z]? /, '')).split(' ');
  const there = new Set(plain(source.replace(/:[a-z]+\[[^\]]*\]/g, ' ')).split(' '));
  const held = words.filter((word) => there.has(word)).length;
  return (
    source.startsWith('```plinth') || /^:phrase\[/.test(source) || held >= Math.min(words.length, 4) * 0.5
  );
};

const documents = ['DOC-02', 'DOC-03', 'DOC-16'] as const;
const words = new Map<string, Uint8Array>();
for (const id of documents) words.set(id, await wordOf(id));
const bytesOf = (id: string): Uint8Array => words.get(id) ?? new Uint8Array();
const homes = new Map(documents.map((id) => [id, homesOf(id, commentEveryParagraph(bytesOf(id)))]));

// Verdicts, standings and other records that a record's row names stand in no line of its file: these go to its start.
test.each([
  ['DOC-02', 0.55],
  ['DOC-03', 0.44],
  ['DOC-16', 0.85],
] as const)('in %s every line gets its comments, and %f of all come to a line that says so', (id, share) => {
  const all = homes.get(id) ?? [];
  const reached = new Set(all.filter(({ record }) => record === id).map(({ line }) => line));
  expect(speakingLines(id).filter((line) => !reached.has(line))).toEqual([]);
  const traced = all.filter(({ line }) => line > 2);
  const wrong = traced.filter((home) => !saysSo(home));
  expect(wrong.length / traced.length).toBeLessThan(0.03);
  expect(traced.length / all.length).toBeGreaterThan(share);
});

test.each([
  ['DOC-02', 'Origin of this document', 2],
  ['DOC-02', 'Revision history', 2],
  ['DOC-03', 'Revision history', 2],
  ['DOC-16', 'Origin of this document', 2],
  ['DOC-02', 'Purpose', '# Purpose'],
  ['DOC-02', 'Intended purpose', '# Intended purpose'],
  ['DOC-02', 'S3', '| S3 |'],
  ['DOC-02', 'Table 1: User needs', 'caption: User needs'],
  ['DOC-02', 'Not for injecting', ':phrase[contra_indication]'],
  ['DOC-03', 'VR-09A failed', 'VR-09A failed'],
  ['DOC-03', 'Results', '# Results'],
  ['DOC-03', 'The design change', '## The design change'],
  ['DOC-16', 'Table 2: Steps', 'caption: Steps'],
  ['DOC-16', 'Figure 1: Conditioning', 'caption: Conditioning'],
] as const)('in %s "%s" belongs to the document, at %s', (id, text, expected) => {
  const home = homes.get(id)?.find((each) => each.text.startsWith(text));
  expect(home).toMatchObject({ record: id });
  if (typeof expected === 'number') expect(home?.line).toBe(expected);
  else expect(home?.source).toContain(expected);
});

test('a range that begins before the bookmark of a heading is on the record of that heading', () => {
  const home = homes.get('DOC-02')?.find((each) => each.text.startsWith('DI-10 '));
  expect(home).toMatchObject({ record: 'DI-10' });
});

test('a paragraph that was put in stands where the one before it stands', () => {
  const hand = reviewer(bytesOf('DOC-03'));
  hand.insertParagraph('Each result below', 'Of every protocol.', 'R');
  const [home] = homesOf('DOC-03', hand.save());
  expect(home?.source).toMatch(/^Each result below/);
});

test('a line that a view draws after the records of its table belongs to the view', async () => {
  const all = homesOf('DOC-09', commentEveryParagraph(await wordOf('DOC-09')));
  const home = all.find((each) => each.text.startsWith('Counts are those of the records of field data'));
  expect(home).toMatchObject({ record: 'DOC-09', source: '```plinth field-experience' });
});

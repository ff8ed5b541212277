import { describe, expect, test } from 'vitest';
import { replaceUnprintable } from '../../src/document/clean-text.ts';
import { documentText } from '../../src/document/document-text.ts';
import { writeHtml } from '../../src/writers/html/write-html.ts';
import { unescape } from './docx-parts.ts';
import { hostileDocument, hostileTexts } from './hostile-document.ts';
import { sampleDocument } from './sample-document.ts';

const sample = writeHtml(sampleDocument);

/** Lines of text of the body and the notes, without what the writer draws: heading numbers and note marks. */
function linesOf(html: string): string[] {
  const text = html.slice(html.indexOf('<div id="text">'), html.indexOf('<section class="notes"'));
  const notes = html.slice(html.indexOf('<section class="notes"'), html.indexOf('<section class="origin"'));
  return (text + notes)
    .replace(/<span class="number">[^<]*<\/span>|<sup>.*?<\/sup>|<a href="#noteref[^>]*>[^<]*<\/a>/g, '')
    .replace(/<\/(?:p|li|h\d|td|th|caption|figcaption|pre)>|<br>|<(?:ul|ol)[^>]*>/g, '\n')
    .replace(/<[^>]*>/g, '')
    .split('\n')
    .map((line) => unescape(line).replaceAll('\u00a0', ' ').trim())
    .filter((line) => line !== '');
}

test('says what the model says, in the same order', () => {
  const expected = documentText(sampleDocument)
    .replaceAll('\u00a0', ' ')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  expect(linesOf(sample)).toEqual(expected);
});

test('needs no script and nothing from elsewhere', () => {
  expect(sample).not.toMatch(/<script|<link|@import|url\(|src="http| on\w+=/);
  expect(sample).toContain(`content="default-src 'none'; style-src 'unsafe-inline'; img-src data:;`);
});

test('gives each id once, and every link in the page leads somewhere', () => {
  const ids = [...sample.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
  expect(new Set(ids).size).toBe(ids.length);
  const targets = [...sample.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id);
  expect(targets.length).toBeGreaterThan(20);
  for (const target of targets) expect(ids).toContain(target);
});

// WCAG 2.2: 2.1.1 keyboard (scroll regions), 1.1.1 text alternatives, 1.3.1 relations, 3.1.1 language of page.
test('can be read by keyboard and by ear', () => {
  expect(sample).toContain('<html lang="en-GB">');
  for (const [region] of sample.matchAll(/<div class="scroll"[^>]*>/g)) {
    expect(region).toMatch(/role="region" tabindex="0" aria-label="[^"]+"/);
  }
  expect(sample.match(/<th(?![a-z])[^>]*>/g)?.every((cell) => /scope="(?:col|row)"/.test(cell))).toBe(true);
  expect(sample.match(/<img [^>]*>/g)?.every((image) => /alt="[^"]+"/.test(image))).toBe(true);
  expect(sample.match(/<h1/g)?.length).toBe(1);
});

test('is the same twice', () => {
  expect(writeHtml(sampleDocument)).toBe(sample);
});

describe('hostile content', () => {
  const hostile = writeHtml(hostileDocument);

  test('stays text', () => {
    expect(hostile).not.toMatch(/<script/i);
    expect(hostile).not.toMatch(/javascript:/i);
    // A quote in a text must not end an attribute: no tag has a handler.
    for (const [tag] of hostile.matchAll(/<[a-z][^<>]*>/gi)) {
      expect(tag.replace(/"[^"]*"/g, '""')).not.toMatch(/\son\w+\s*=/i);
    }
    for (const each of hostileTexts) expect(unescape(hostile)).toContain(replaceUnprintable(each).text);
  });

  test('control characters are replaced', () => {
    expect(replaceUnprintable(hostile).replaced).toBe(0);
    expect(hostile).toContain('a\ufffdb\ufffdc\ufffdd\ufffde');
  });

  test('no link leads nowhere', () => {
    const ids = [...hostile.matchAll(/<[a-z]\w* [^<>]*?\bid="([^"]*)"/g)].map(([, id]) => id);
    const targets = [...hostile.matchAll(/href="#([^"]*)"/g)].map(([, id]) => id);
    expect(targets).toContain('rec_VP_4');
    for (const target of targets) expect(ids).toContain(target);
  });

  test('ids are plain and given once', () => {
    const ids = [...hostile.matchAll(/<[a-z]\w* [^<>]*?\bid="([^"]*)"/g)].map(([, id]) => id ?? '');
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[A-Za-z]\w*$/);
  });
});

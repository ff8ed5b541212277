import { expect, test } from 'vitest';
import { readTree } from '../support/technical-file.ts';
import { demonstrationSite, pagesIn, siteOf } from './demonstration-site.ts';

const pages = pagesIn(await demonstrationSite());

/** Words of a piece of a page, on one line. */
const wordsOf = (html: string): string =>
  html
    .replace(/<br>/g, ' ')
    .replace(/<[^>]*>/g, '')
    .replace(/\s+/g, ' ')
    .trim();

const section = (html: string | undefined, id: string): string =>
  wordsOf(new RegExp(`<section id="${id}".*?</section>`, 's').exec(html ?? '')?.[0] ?? '');

test('what passed names every result that holds, and which failed and was repeated by what', () => {
  const input = section(pages.get('records/DI-09.html'), 'standing');
  expect(input).toContain('VR-09A failed and was repeated by VR-09B');
  const names = /Results on which it rests(?:all (\d+) hold|the only one holds): (.*?)Repeated/.exec(input);
  expect(names?.[2]).toContain('VR-09B');
  expect(names?.[2]).not.toContain('VR-09A');
  const risk = section(pages.get('records/RK-03.html'), 'standing');
  const [, count = '0', list = ''] = /all (\d+) hold: (.*?)(?:Repeated|$)/.exec(risk) ?? [];
  expect(Number(count)).toBeGreaterThan(1);
  expect(list.trim().split(', ').length).toBe(Number(count));
  expect(risk).toContain('VR-09A failed and was repeated by VR-09B');
  // A need whose results were never repeated says nothing of the kind.
  expect(section(pages.get('records/DI-01.html'), 'standing')).not.toContain('repeated');
});

test('the first page names the risk that was accepted outside of the criteria, and the result that failed', () => {
  const overview = pages.get('index.html');
  const remarks = section(overview, 'remarks');
  expect(remarks).toMatch(/RK-10 .*not within the criteria.*accepted by BR-01/);
  expect(remarks).toMatch(/VR-09A .*fail.*repeated by VR-09B/);
  const tiles = wordsOf(/<ul class="tiles">.*?<\/ul>/s.exec(overview ?? '')?.[0] ?? '');
  expect(tiles).toContain('1 not within the criteria after control, accepted by decision');
  expect(tiles).toContain('1 result failed repeated since');
  expect(overview?.match(/<li class="tile /g)?.length).toBe(6);
});

test('the first page names questions that wait for an answer, and pulls to come', () => {
  const open = section(pages.get('index.html'), 'open');
  expect(open).toMatch(/AQ-03 .*open.*due on 2026-12-11/);
  expect(open).toMatch(/the pull after 12 months is due on 2027-01-12/);
});

test('of a file without records the first page claims nothing', async () => {
  const empty = pagesIn(
    await siteOf(new Map([['plinth.yaml', 'device: { name: Applicator, maker: Maker }\n']])),
  );
  const overview = empty.get('index.html') ?? '';
  expect(section(overview, 'open')).toContain('There are no records yet.');
  expect(overview).not.toContain('tile-good');
  for (const [, address = ''] of overview.matchAll(/<li class="tile [^>]*><a href="([^"#]+)/g))
    expect(empty.has(address)).toBe(true);
});

test('a file that cannot be read is named, and the counts are not good without it', async () => {
  const files = new Map<string, string | Uint8Array>(readTree('content'));
  files.set('user-needs/UN-77.md', '---\nid: UN-77\ntype: user-need\n');
  const overview = pagesIn(await siteOf(files)).get('index.html') ?? '';
  expect(section(overview, 'remarks')).toContain('user-needs/UN-77.md cannot be read as a record');
  expect(overview).toMatch(/<li class="tile tile-caution"><a [^>]*><span class="value">14 of 14</);
});

test('a risk that nobody could judge is no risk within the criteria', async () => {
  const files = new Map(readTree('content'));
  const plan = [...files.keys()].find((path) => path.endsWith('RP-01.md')) ?? '';
  files.delete(plan);
  const overview = pagesIn(await siteOf(files)).get('index.html') ?? '';
  expect(section(overview, 'remarks')).toContain('not judged: no estimate, or no criteria');
  expect(overview).toContain('12 without an estimate or without criteria');
});

test('without the repetition, the first page says that the result stands failed', async () => {
  const files = new Map(readTree('content'));
  const name = [...files.keys()].find((path) => path.endsWith('VR-09B.md')) ?? '';
  files.delete(name);
  const changed = pagesIn(await siteOf(files));
  expect(section(changed.get('index.html'), 'remarks')).toMatch(/VR-09A .*fail.*not repeated/);
  const input = section(changed.get('records/DI-09.html'), 'standing');
  expect(input).toContain('VR-09A failed');
  expect(input).toContain('; not: VR-09A');
});

test('a legal requirement shows for each clause how far each piece of its evidence is shown', async () => {
  const clauses = section(pages.get('records/GR-10.html'), 'clauses');
  expect(clauses).toMatch(/10\.1\(a\).*VR-17 passed/);
  expect(clauses).toMatch(/DOC-\d+ (?:\([^)]*\) )?approval in force/);
  const files = new Map(readTree('content'));
  const name = [...files.keys()].find((path) => path.endsWith('VR-17.md')) ?? '';
  const record = new TextDecoder().decode(files.get(name));
  files.set(name, new TextEncoder().encode(record.replace('status: approved', 'status: draft')));
  const changed = section(pagesIn(await siteOf(files)).get('records/GR-10.html'), 'clauses');
  expect(changed).toMatch(/10\.1\(a\).*VR-17 planned/);
});

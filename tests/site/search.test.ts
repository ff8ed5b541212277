import { describe, expect, test } from 'vitest';
import { documentsOf } from '../../src/cli/documents.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import type { SearchEntry } from '../../src/document/site.ts';
import { buildSite } from '../../src/pages/build-site.ts';
import { analyse } from '../../src/pipeline.ts';
import {
  addTexts,
  type NamedEntry,
  type SearchIndex,
  search,
  searchIndex,
} from '../../src/site/search-rank.ts';
import { processorMilliseconds } from '../support/processor-time.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';

const analysis = analyse(inputsFrom(readTree('content')));
const entries: readonly SearchEntry[] = [
  ...buildSite({
    ...analysis,
    waived: analysis.waivers.waived,
    documents: await documentsOf(analysis, 'DOC-20'),
    compile: await createMarkdownCompiler(),
  }).search(),
];

const indexOf = (list: readonly Pick<SearchEntry, 'id' | 'title' | 'state' | 'text'>[]): SearchIndex => {
  const states = [...new Set(list.map(({ state }) => state))];
  const index = searchIndex(
    list.map(({ id, title, state }): NamedEntry => ['', id, title, 0, states.indexOf(state)]),
    states,
  );
  addTexts(
    index,
    0,
    list.map(({ text }) => text),
  );
  return index;
};

const index = indexOf(entries);

const found = (query: string): readonly string[] =>
  search(query, index, 10_000).hits.map((hit) => entries[hit.index]?.id ?? '');

describe('search over the demonstration file', () => {
  test.each([
    ['ISO 10993-1', 'ST-03'],
    ['2026-06-15', 'VR-20'],
    ['Oakrill', 'DI-01'],
    ['failed', 'VR-09A'],
    ['DOC-20-VR-01', 'DOC-20-VR-01'],
    ['L001-07', 'VR-09A.csv'],
    ['tip retension', 'DI-09'],
  ])('"%s" finds %s', (query, id) => {
    expect(found(query)).toContain(id);
  });

  test.each([
    ['VR09A', 'VR-09A'],
    ['UN8', 'UN-08'],
    ['vr-9a', 'VR-09A'],
    ['"VR-09A"', 'VR-09A'],
    ['GSPR 10.4', 'GSPR 10.4'],
    ['10.4.1', 'GSPR 10.4.1'],
  ])('"%s" finds %s before all others', (query, id) => {
    expect(found(query)[0]).toBe(id);
  });

  test('an id of a record is found in the documents that print it', () => {
    expect(found('VR-09A').filter((id) => id.startsWith('DOC-20-'))).not.toEqual([]);
  });

  test('what stands nowhere is not found, and a short word is not guessed', () => {
    expect(found('zzzqqqxxwwyy')).toEqual([]);
    expect(found('qzx')).toEqual([]);
  });
});

describe('words of a query', () => {
  const few = indexOf([
    {
      id: 'A-01',
      title: 'Colour of the side-loaded tip',
      state: 'planned',
      text: 'Sterilised in_house 4-5 times.',
    },
    { id: 'A-02', title: 'Behavior', state: 'fail', text: 'Sterilize again, side‑on.' },
  ]);
  const ids = (query: string): readonly number[] => search(query, few, 10).hits.map((hit) => hit.index);

  test.each([
    ['color', [0]],
    ['colour', [0]],
    ['behaviour', [1]],
    ['sterilized', [0]],
    ['sterilise', [0, 1]],
    ['side-loaded', [0]],
    ['side-on', [1]],
    ['in_house', [0]],
    ['“side-loaded tip”', [0]],
    ['failed', [1]],
    ['passed', []],
  ])('%s', (query, expected) => {
    expect(ids(query)).toEqual(expected);
  });

  test('one or two wrong letters of a long word find the nearest, and only where nothing holds the word', () => {
    expect(ids('behavoir')).toEqual([1]);
    expect(search('behavoir', few, 10).isNearest).toBe(true);
    expect(search('colour', few, 10).isNearest).toBe(false);
    expect(ids('bxhxvxor')).toEqual([]);
  });
});

test('a search among 10,000 records takes less than 50 ms, mistyped words too', () => {
  const body = entries
    .map(({ text }) => text)
    .join(' ')
    .slice(0, 400_000);
  const many = indexOf(
    Array.from({ length: 10_000 }, (_, at) => ({
      id: `VR-${at}`,
      title: `Result number ${at} of the tip`,
      state: 'passed',
      text: body.slice((at * 37) % 390_000, ((at * 37) % 390_000) + 1500),
    })),
  );
  const timeOf = (query: string): number => {
    const times = Array.from({ length: 3 }, () => {
      const start = processorMilliseconds();
      search(query, many, 40);
      return processorMilliseconds() - start;
    });
    return Math.min(...times);
  };
  expect(timeOf('VR-9999')).toBeLessThan(50);
  expect(timeOf('granule retention')).toBeLessThan(50);
  expect(timeOf('granule retension')).toBeLessThan(50);
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { characterHistogram } from '../../src/views/character-histogram.ts';
import { characterBar, characterCurves } from '../../src/views/character-plot.ts';

/** What fits 80 columns behind the indent of a block of code. */
const widest = 76;

describe('curves of characters', () => {
  const lines = characterCurves({
    curves: [
      { sign: 'a', at: (x) => 1 - x },
      { sign: 'b', at: () => 0.5 },
    ],
    upTo: 1,
    marks: [0.25, 7],
    axisText: (x) => `${x * 100} %`,
    axisName: 'share',
  }).split('\n');
  const rows = lines.slice(0, 21).map((line) => line.slice(5).padEnd(65));

  test('stand at their heights: 0 and 1 at the edges, where two meet a star, marks as dots', () => {
    expect(rows[0]?.[0]).toBe('a');
    expect(rows[20]?.[64]).toBe('a');
    expect(rows[10]?.[0]).toBe('b');
    expect(rows[10]?.[32]).toBe('*');
    expect(rows[15]?.[48]).toBe('a');
    expect(rows.filter((row) => row[16] === ':')).toHaveLength(19);
    expect(rows[5]?.[16]).toBe('a');
  });

  test('have an axis with its ends, and fit', () => {
    expect(lines[0]).toMatch(/^1\.0 \|/);
    expect(lines[20]).toMatch(/^0\.0 \|/);
    expect(lines[22]).toMatch(/^ {5}0 % +50 % +100 %$/);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(widest);
  });
});

describe('a histogram of characters', () => {
  const countsOf = (drawn: string): readonly number[] =>
    [...drawn.matchAll(/\|#+ (\d+)$/gm)].map((match) => Number(match[1]));

  test('counts every reading once, with empty classes drawn and marks where they belong', () => {
    const drawn = characterHistogram(
      [1, 1.1, 2, 2.1, 2.2, 5],
      [
        { label: 'upper limit 6', value: 6 },
        { label: 'lower limit 0', value: 0 },
      ],
    );
    expect(countsOf(drawn).reduce((sum, count) => sum + count, 0)).toBe(6);
    const lines = drawn.split('\n');
    expect(lines[0]).toContain('|-- lower limit 0');
    expect(lines.at(-1)).toContain('|-- upper limit 6');
    expect(drawn).toMatch(/\|$/m);
  });

  test('tells of many empty classes, and draws nothing where nothing can be', () => {
    const far = characterHistogram([...Array.from({ length: 200 }, (_, index) => index / 1000), 50], []);
    expect(far).toMatch(/\(\d+ classes without readings\)/);
    expect(countsOf(far)).toEqual([200, 1]);
    expect(characterHistogram([], [])).toBe('');
    expect(characterHistogram([1.5e308, -1.5e308], [])).toBe('');
  });

  test('holds for any readings', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 60 }),
        fc.double({ min: -2e6, max: 2e6, noNaN: true }),
        (values, value) => {
          const drawn = characterHistogram(values, [{ label: 'limit', value }]);
          expect(countsOf(drawn).reduce((sum, count) => sum + count, 0)).toBe(values.length);
          expect(drawn.match(/\|-- limit/g)).toHaveLength(1);
          expect(drawn).not.toMatch(/NaN|undefined|not a number/);
          for (const line of drawn.split('\n')) expect(line.length).toBeLessThanOrEqual(widest);
        },
      ),
      { seed: 9 },
    );
  });

  test('a bar is as long as its share of the longest one, and never nothing for something', () => {
    expect(characterBar(10, 10)).toHaveLength(40);
    expect(characterBar(5, 10)).toHaveLength(20);
    expect(characterBar(1, 1000)).toBe('#');
    expect(characterBar(0, 10)).toBe('');
  });
});

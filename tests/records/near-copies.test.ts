import { describe, expect, test } from 'vitest';
import { nearCopies, wordDifference } from '../../src/records/near-copies.ts';
import { processorMilliseconds } from '../support/processor-time.ts';

const wording =
  'To hold and deliver particulate bone graft material into intra-oral bone defects during oral surgery, by dental surgeons, single use.';

describe('near copies of a wording', () => {
  test.each([
    ['itself', wording],
    [
      'on several lines and in bold',
      wording.replaceAll(' bone', '\nbone').replace('particulate', '**particulate**'),
    ],
    ['in a sentence', `It serves ${wording.charAt(0).toLowerCase()}${wording.slice(1, -1)}, and no more.`],
    ['twice', `${wording} ${wording}`],
    ['in a quotation of Markdown', `> ${wording.replace(' defects', '\n> defects')}`],
    ['an unlike text', 'The applicator has a clear chamber.'],
    ['a shared start only', 'To hold and deliver particulate matter was the aim of the first sketch.'],
  ])('none in %s', (_, text) => {
    expect(nearCopies(text, wording)).toEqual([]);
  });

  test.each([
    ['a word exchanged', wording.replace('surgeons', 'professionals')],
    ['a word left out', wording.replace('particulate ', '')],
    ['a comma left out', wording.replace('surgery,', 'surgery')],
    ['the end left out', wording.replace(', single use', '')],
    ['the start left out', wording.replace('To hold and deliver', 'To place')],
  ])('one with %s, at its place', (_, copy) => {
    const before = 'Purpose. ';
    const text = `${before}${copy} After it comes more.`;
    const found = nearCopies(text, wording);
    expect(found).toHaveLength(1);
    expect(text.slice(found[0]?.offset, (found[0]?.offset ?? 0) + (found[0]?.length ?? 0))).toBe(copy);
  });

  test('a right and a wrong copy side by side', () => {
    const found = nearCopies(`${wording} ${wording.replace('surgeons', 'nurses')}`, wording);
    expect(found.map((copy) => copy.offset)).toEqual([wording.length + 1]);
  });

  test('wordings of fewer than six words are not looked for', () => {
    expect(nearCopies('for dental use only please', 'for dental use only')).toEqual([]);
  });

  test('long texts of repeated beginnings take time in proportion', () => {
    const text = 'to hold and deliver '.repeat(50_000);
    const start = processorMilliseconds();
    nearCopies(text, wording);
    expect(processorMilliseconds() - start).toBeLessThan(5000);
  });
});

describe('the difference in words', () => {
  test.each([
    ['single use, by dentists', 'single use, by surgeons', '"dentists" instead of "surgeons"'],
    ['by dental nurses, single use', 'by dental surgeons, single use', '"nurses" instead of "surgeons"'],
    ['by nurses, single use', 'by surgeons, single use.', '"nurses" instead of "surgeons"'],
    ['by surgeons, single', 'by surgeons, single.', '"single" instead of "single."'],
    ['in surgery by all', 'in surgery, by all', '"surgery" instead of "surgery,"'],
    ['hold and deliver', 'hold and safely deliver', '"safely" is missing'],
    ['hold and safely deliver', 'hold and deliver', '"safely" is added'],
    ['single  "use"', "single 'use'", '"single "use"" instead of "single \'use\'"'],
    ['Single Use', 'single use', '"Use" instead of "use"'],
    ['To hold', 'to hold', '"To hold" instead of "to hold"'],
    ['to hold grafts', 'To hold material', '"grafts" instead of "material"'],
  ])('%s | %s', (actual, expected, difference) => {
    expect(wordDifference(actual, expected)).toBe(difference);
  });
});

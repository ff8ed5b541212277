import { describe, expect, test } from 'vitest';
import { datedMentionsOf, isYearOf } from '../../src/records/standard-mentions.ts';

const years = (designation: string, text: string): readonly string[] =>
  datedMentionsOf(designation)(text).map((mention) => mention.year);

describe('dated mentions of a standard', () => {
  test.each([
    ['ISO 10993-1', 'ISO 10993-1:2018 and ISO 10993-1:2025', ['2018', '2025']],
    ['ISO 10993-1', 'ISO 10993-10:2021, ISO 10993-1 and ISO 10993-17:2023', []],
    ['ISO 10993-1', 'ISO\n10993-1:2018', ['2018']],
    ['ISO 10993-1', 'EN ISO 10993-1:2020, BS EN ISO 10993-1:2020 and DIN EN ISO 10993-1:2021', []],
    ['EN ISO 10993-1', 'EN ISO 10993-1:2020', ['2020']],
    ['ISO 11135', 'ISO 11135:2014+A1:2018', ['2014']],
    ['ISO 14971', 'see ISO 14971:2019 7.2', ['2019']],
    // A hyphen starts a part number with ISO and a year with ASTM.
    ['ISO 10993', 'ISO 10993-18', []],
    ['ASTM F1980', 'ASTM F1980-21 and ASTM F1980-16(2021)', ['21', '16']],
    ['ASTM F88/F88M', 'ASTM F88/F88M-21', ['21']],
    ['ASTM D4169', 'ASTM D4169-2022', ['2022']],
    ['USP <161>', 'USP <161>', []],
    ['ISO 14971', 'ISO 14971 (2012), ISO 14971-2007 and ISO 14971 (annex)', ['2012', '2007']],
    ['ISO 10993', 'ISO 10993-1:2018, ISO 10993-18 (2020)', []],
  ])('%s in "%s"', (designation, text, expected) => {
    expect(years(designation, text)).toEqual(expected);
  });

  test('the place is that of the designation', () => {
    const text = 'Tested by ISO 10993-1:2018.';
    const [mention] = datedMentionsOf('ISO 10993-1')(text);
    expect(text.slice(mention?.offset, (mention?.offset ?? 0) + (mention?.text.length ?? 0))).toBe(
      'ISO 10993-1:2018',
    );
  });
});

describe('the year of an edition', () => {
  test.each([
    ['2018', '2025', false],
    ['2025', '2025', true],
    ['21', '2021', true],
    ['2021', '21', true],
    ['16', '2021', false],
    ['2019', '2008+Amd 1:2019', true],
    ['2008', '2008+Amd 1:2019', true],
    ['1921', '2021', false],
  ])('%s of %s: %s', (year, edition, same) => {
    expect(isYearOf(year, edition)).toBe(same);
  });
});

import { describe, expect, test } from 'vitest';
import { calculated, value } from './calculated.ts';

const storage = '{ characteristic: storage used up, unit: d, upper: 40 }';
const excursion = (csv: string, more = '', acceptance = storage, data?: string) =>
  calculated(
    `kind: temperature-excursion, q10: 2, reference_temperature: 25${more}`,
    acceptance,
    [],
    data === undefined ? { csv } : { csv, data },
  );

/** Rows of a log with one reading each hour. */
const hourly = (heading: string, temperatures: readonly number[]): string =>
  `${heading}\n${temperatures
    .map((temperature, hour) => {
      const day = String(1 + Math.floor(hour / 24)).padStart(2, '0');
      return `2026-01-${day} ${String(hour % 24).padStart(2, '0')}:00,${temperature}\n`;
    })
    .join('')}`;

describe('temperature excursion', () => {
  test('ten days at 25 °C with 24 h at 45 °C: by hand', () => {
    // A rise from 25 to 45 over an hour is worth (4 - 1) / ln 4 h; 23 h at factor 4, and down again.
    const temperatures = Array.from({ length: 241 }, (_, hour) => (hour >= 100 && hour <= 123 ? 45 : 25));
    const result = excursion(hourly('time,temperature [°C]', temperatures), ', upper_temperature: 30');
    const expected = (240 - 25 + 23 * 4 + 2 * (3 / Math.log(4))) / 24;
    expect(value(result, 'equivalent_duration')).toBeCloseTo(expected, 9);
    expect(value(result, 'duration')).toBeCloseTo(10, 9);
    expect(value(result, 'duration_above')).toBeCloseTo(23 + 2 * 0.75, 6);
    expect(value(result, 'highest')).toBe(45);
    expect(result.verdict).toBe('pass');
    expect(result.reason).toBe(
      '10.00 d between 25.0 and 45.0 °C are worth 12.97 d at 25 °C, required at most 40 d',
    );
    expect(result.dataFile).toBe('log.csv');
    expect(result.unitCount).toBe(241);
  });

  test('the log of an ageing chamber: 137 d at 55 °C are worth 1096 d', () => {
    const log = 'time [d],temperature\n0,55\n60,55\n137,55\n';
    const claim = (lower: number) => `{ characteristic: real time, unit: d, lower: ${lower} }`;
    expect(excursion(log, '', claim(1095)).verdict).toBe('pass');
    expect(excursion(log, '', claim(1097)).verdict).toBe('fail');
    expect(excursion(log, '', '{ characteristic: real time, unit: a, lower: 3 }').verdict).toBe('pass');
  });

  test('reads other units, decimal commas, zones and named columns', () => {
    const kelvin = excursion('time [h],temperature [K]\n0,298.15\n24,298.15\n');
    expect(value(kelvin, 'equivalent_duration')).toBeCloseTo(1, 9);
    const commas = excursion('time [h];temperature\n0;35,0\n24;35,0\n', '', storage, "decimal: ','");
    expect(value(commas, 'equivalent_duration')).toBeCloseTo(2, 9);
    const zoned = excursion(
      'at,probe\n2026-03-29T01:00+01:00,25\n2026-03-29T03:00+02:00,25\n',
      '',
      storage,
      'time: at, temperature: probe',
    );
    // Over the change to summer time one hour passes, not two.
    expect(value(zoned, 'duration')).toBeCloseTo(1 / 24, 9);
  });

  test.each([
    ['a gap', ', maximum_gap: 12', 'the longest time between two readings is 24.00 h, allowed 12 h'],
    [
      'warmth near a transition',
      ', transition_temperature: 34',
      'less than 10 °C below the lowest transition',
    ],
    ['damp', ', humidity_upper: 60', '40 to 70 % relative humidity, allowed 0 to 60 %'],
    ['drought', ', humidity_lower: 45', 'allowed 45 to 100 %'],
  ])('is undecided after %s', (_, more, words) => {
    const log = 'time [h],temperature,relative humidity [%]\n0,25,40\n24,25,70\n';
    expect(excursion(log).verdict).toBe('pass');
    const result = excursion(log, more);
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(words);
    expect(result.characteristics[0]?.remedy).toBeTruthy();
  });

  test('limits on humidity without a record of it are not met', () => {
    expect(excursion('time [h],temperature\n0,25\n24,25\n', ', humidity_upper: 60').reason).toContain(
      'no humidity was recorded',
    );
  });

  test.each([
    [
      'a time that is none',
      'time,temperature\nyesterday,25\n',
      'row 2, column "time": "yesterday" is no moment',
    ],
    ['a day that does not exist', 'time,temperature\n2026-02-30 10:00,25\n', 'is no moment'],
    ['numbers without a unit', 'time,temperature\n0,25\n1,25\n', 'need a unit in the heading'],
    ['times that run backwards', 'time [h],temperature\n2,25\n1,25\n', 'reading 2 of 2 is not later'],
    ['one reading', 'time [h],temperature\n2,25\n', '1 value, at least 2 needed'],
    ['a blank', 'time [h],temperature\n1,25\n2,\n', 'row 3, column "temperature": the cell is empty'],
    ['a word', 'time [h],temperature\n1,25\n2,warm\n', '"warm" is not a number'],
    ['a comma for a point', 'time [h];temperature\n1;25,5\n2;25,5\n', '"25,5" is not a number'],
    ['no such column', 'time [h],probe\n1,25\n', 'has no column "temperature"; it has: time, probe'],
    [
      'zones here and there',
      'time,temperature\n2026-01-01 10:00Z,25\n2026-01-01 11:00,25\n',
      'some have none',
    ],
    ['another quantity', 'time [h],temperature [N]\n1,25\n2,25\n', 'cannot be converted to Cel'],
    ['absurd warmth', 'time [h],temperature\n1,1e9\n2,1e9\n', 'no factor can be given'],
  ])('without a usable log has no verdict: %s', (_, csv, words) => {
    const result = excursion(csv);
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(words);
    expect(result.findings[0]).toMatchObject({
      code: expect.stringMatching(/^(?:method-inputs-missing|data-cell-blank|data-cell-wrong)$/),
      hint: expect.any(String),
    });
  });

  test('a cell that cannot be used is named at its row', () => {
    expect(excursion('time [h],temperature\n1,25\n2,\n').findings).toEqual([
      expect.objectContaining({
        code: 'data-cell-blank',
        place: { file: 'log.csv', line: 3, column: 3 },
      }),
    ]);
    expect(excursion('time [h],temperature\n1,25\n2,warm\n').findings).toEqual([
      expect.objectContaining({
        code: 'data-cell-wrong',
        place: { file: 'log.csv', line: 3, column: 3 },
      }),
    ]);
  });

  test('a broken or missing file is reported where it is', () => {
    expect(excursion('')).toMatchObject({
      verdict: 'undecided',
      findings: [{ code: 'data-unreadable', place: { file: 'log.csv' } }],
    });
    const none = calculated('kind: temperature-excursion, q10: 2, reference_temperature: 25', storage);
    expect(none.reason).toContain('data is missing');
  });

  test('without limits, or with one that is no time, has no verdict', () => {
    const log = 'time [h],temperature\n0,25\n24,25\n';
    expect(excursion(log, '', '').reason).toContain('acceptance is missing');
    expect(excursion(log, '', '{ characteristic: force, unit: N, upper: 3 }').reason).toContain(
      'no unit of time',
    );
  });
});

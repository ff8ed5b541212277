import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { evaluated, normalReadings } from '../evidence/test-run.ts';
import { projectRoot } from '../support/technical-file.ts';
import { closedSchema } from './closed-schema.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const folder = emptyFolder();
const file = (name: string, content: string | Uint8Array): string => {
  writeFileSync(join(folder, name), content);
  return name;
};
const analyse = (...words: readonly string[]) => runPlinth(folder, ['analyse', ...words]);
const claim = (confidence: string, reliability: string): readonly string[] => [
  '--confidence',
  confidence,
  '--reliability',
  reliability,
];
const plain = claim('0.95', '0.95');

/** 30 readings with mean 52 and standard deviation 5.4, as normal as can be. */
const force = normalReadings(30, 52, 5.4).map((value) => value.toFixed(6));
const csv = (heading: string, values: readonly (string | number)[]): string =>
  `${heading}\n${values.join('\n')}\n`;
const pull = file('pull.csv', csv('force [N]', force));

interface Report {
  readonly form: string;
  readonly verdict: string;
  readonly reason: string;
  readonly remedy?: string;
  readonly values: readonly { readonly key: string; readonly value: number }[];
  readonly capability?: readonly { readonly key: string; readonly value: number }[];
  readonly readings: readonly number[];
}
const report = (...words: readonly string[]): Report =>
  JSON.parse(analyse(...words, '--format', 'json').out) as Report;
const valueOf = ({ values, capability = [] }: Report, key: string): number =>
  [...values, ...capability].find((value) => value.key === key)?.value ?? Number.NaN;

describe('plinth analyse', () => {
  test('holds readings against a limit by the exact factor', () => {
    const look = report(pull, '--lower', '30', ...claim('0.95', '0.99'));
    expect(look).toMatchObject({ form: 'plinth-analysis', verdict: 'pass' });
    // k of one limit for n = 30, 95/99: 3.064 (Montgomery and Runger, Applied Statistics, 7th ed., Table XII).
    expect(valueOf(look, 'factor')).toBeCloseTo(3.064, 3);
    expect(valueOf(look, 'mean')).toBeCloseTo(52, 5);
    expect(valueOf(look, 'standard_deviation')).toBeCloseTo(5.4, 5);
    expect(valueOf(look, 'lower_bound')).toBeCloseTo(52 - 3.0639 * 5.4, 3);
    expect(valueOf(look, 'ppk')).toBeCloseTo((52 - 30) / (3 * 5.4), 5);
    // Both limits, n = 30, 95/95: exactly 2.5549 (tests/statistics/tolerance-factor.test.ts); Howe's approximation is 2.550.
    expect(valueOf(report(pull, '--lower', '30', '--upper', '80', ...plain), 'factor')).toBeCloseTo(
      2.5549,
      4,
    );
  });

  test('says what check would say of a verification record with the same readings', () => {
    const look = report(pull, '--lower', '37', ...plain);
    const record = evaluated({
      acceptance: '{ characteristic: force, unit: N, lower: 37 }',
      sampling: 'kind: normal-tolerance-interval, confidence: 0.95, reliability: 0.95',
      csv: csv('force [N]', force),
    });
    const [evidence] = record.characteristics;
    expect(look.verdict).toBe(record.verdict);
    expect(look.reason).toBe(record.reason);
    expect(look.values).toEqual(evidence?.values);
    expect(look.readings).toEqual(evidence?.readings);
  });

  test('prints the look with a histogram, at 80 columns, and says that it is no record', () => {
    const { out, code } = analyse(pull, '--lower', '30', ...claim('0.95', '0.99'));
    expect(code).toBe(0);
    for (const line of out.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
    const words = out.replaceAll('│', '').replace(/\s+/g, ' ');
    for (const expected of [
      'not a verification record: nothing was planned before the readings were seen',
      '95/99 lower tolerance bound 35.454',
      'Anderson-Darling',
      'each row is taken as a unit of its own',
      'Ppk 1.358',
      'SHA-256',
    ])
      expect(words).toContain(expected);
    expect(out).toMatch(/\|-- lower limit 30 N\n +\|-- 95\/99 lower tolerance bound/);
    const bars = [...out.matchAll(/\d to +[\d.]+ \|#* (\d+)$/gm)].map((match) => Number(match[1]));
    expect(bars.reduce((sum, count) => sum + count, 0)).toBe(30);
  });

  test('fails and is undecided with exit code 1, a reason and a remedy', () => {
    const failing = analyse(pull, '--lower', '40', ...claim('0.95', '0.99'));
    expect(failing.code).toBe(1);
    expect(failing.out).toMatch(/Verdict +fail\n/);
    // Exponential by quantiles: nobody takes it for normal.
    const skewed = Array.from({ length: 40 }, (_, index) => (-Math.log(1 - (index + 0.5) / 40)).toFixed(4));
    const doubtful = analyse(file('skewed.csv', csv('wear', skewed)), '--upper', '9', ...plain);
    expect(doubtful.code).toBe(1);
    const words = doubtful.out.replace(/\s*│?\s+/g, ' ');
    expect(words).toContain('the readings do not look normal');
    expect(words).toContain('What to do: Look for mixed lots');
    expect(words).toContain('so the index says nothing about the share outside');
    expect(words).not.toContain('share outside the limits');
  });

  test.each([
    ['one reading', csv('force [N]', ['5.1']), '1 value, at least 2 needed'],
    ['constant readings', csv('force [N]', [5, 5, 5, 5, 5]), 'all 5 values are 5'],
  ])('%s are undecided, with a remedy', (_, content, reason) => {
    const name = file('few.csv', content);
    const { code, out } = analyse(name, '--lower', '3', ...plain);
    expect(code).toBe(1);
    expect(out).toMatch(/Verdict +undecided/);
    expect(out.replace(/\s+/g, ' ')).toContain(reason);
    expect(out).toContain('What to do: ');
    expect(out).not.toMatch(/NaN|Infinity to/);
    expect(report(name, '--lower', '3', ...plain)).toMatchObject({ verdict: 'undecided' });
  });

  test('never takes the numbers of the units for readings', () => {
    const semicolons = file(
      'semicolons.csv',
      `unit;force [N]\n${Array.from({ length: 12 }, (_, i) => `${101 + i};${20 + i / 10}`.replace('.', ',')).join('\n')}\n`,
    );
    const refused = analyse(semicolons, '--lower', '30', ...plain);
    expect(refused.code).toBe(2);
    expect(refused.error).toContain('"unit", which does not look like readings');
    expect(refused.error).toContain('--decimal');
    const right = report(semicolons, '--lower', '30', ...plain, '--decimal', ',', '--column', 'force');
    expect(right.verdict).toBe('fail');
  });

  test('refuses a confidence that can only be a significance', () => {
    const refused = analyse(pull, '--lower', '30', '--confidence', '0.05', '--reliability', '0.9');
    expect(refused.code).toBe(2);
    expect(refused.error).toContain('expected at least 0.5');
    expect(refused.error).toContain('give 0.95');
  });

  test('takes other methods, lots, groups, words and units', () => {
    const lots = file(
      'lots.csv',
      `lot;force [N]\n${force.map((value, index) => `${index < 15 ? 'A' : 'B'};${value.replace('.', ',')}`).join('\n')}\n`,
    );
    const withLots = analyse(lots, '--lower', '3', ...plain, '--lot', 'lot', '--decimal', ',');
    expect(withLots.out).toMatch(/lots: A, B/);
    expect(withLots.out).toContain('within lots');
    // 52 N is 0.052 kN.
    const kilo = report(pull, '--lower', '0.03', '--unit', 'kN', ...plain);
    expect(valueOf(kilo, 'mean')).toBeCloseTo(0.052, 8);
    const groups = file(
      'groups.csv',
      `g,force [N]\n${[10.1, 10.2, 10, 9.9, 10.3, 10.15, 10.05, 10.1].map((v) => `fresh,${v}`).join('\n')}\n${[10, 10.1, 9.9, 10.2, 9.8, 10.05, 9.95, 10].map((v) => `aged,${v}`).join('\n')}\n`,
    );
    const shift = report(
      groups,
      '--method',
      'equivalence',
      '--compare',
      'fresh,aged',
      '--group',
      'g',
      '--confidence',
      '0.95',
      '--lower',
      '-1',
      '--upper',
      '1',
    );
    expect(shift).toMatchObject({ verdict: 'pass' });
    expect(shift.reason).toMatch(/shift of the mean from fresh to aged −0\.100? N/);
    const words = file('words.csv', 'item,seal\n1,pass\n2,pass\n3,fail\n');
    expect(report(words, '--column', 'seal', '--method', 'all-units').reason).toContain('1 of 3 do not meet');
    // 59 units without a failure show 95/95; 58 do not.
    const passed = (count: number): string =>
      csv(
        'seal',
        Array.from({ length: count }, () => 'pass'),
      );
    const attribute = ['--column', 'seal', '--method', 'attribute', '--accept', '0', ...plain];
    expect(report(file('n59.csv', passed(59)), ...attribute).verdict).toBe('pass');
    expect(report(file('n58.csv', passed(58)), ...attribute)).toMatchObject({
      verdict: 'undecided',
      remedy: 'Plan 59 units.',
    });
    const twice = file(
      'twice.csv',
      `unit,force\n${force.flatMap((v, i) => [`U${i},${v}`, `U${i},${v}`]).join('\n')}\n`,
    );
    expect(report(twice, '--lower', '30', ...plain, '--unit-id', 'unit').reason).toContain(
      'several readings',
    );
    expect(
      report(twice, '--lower', '30', ...plain, '--unit-id', 'unit', '--per-unit', 'minimum').readings,
    ).toHaveLength(30);
  });

  test('readings that no square can hold are refused, not summed to nothing', () => {
    for (const power of ['e-300', 'e60']) {
      const name = file('power.csv', csv('force [N]', [`4.1${power}`, `5.2${power}`, `6.3${power}`]));
      const { code, error } = analyse(name, '--column', 'force', '--lower', '3', ...plain);
      expect(code).toBe(2);
      expect(error).toMatch(/is too (small|large) to compute with/);
    }
  });

  test('the JSON form has no field that its schema does not describe', () => {
    const schema = JSON.parse(
      readFileSync(join(projectRoot, 'schemas/outputs/analysis.schema.json'), 'utf8'),
    );
    const validate = new Ajv2020({ strict: false }).compile(closedSchema(schema) as object);
    const few = file('one.csv', csv('force [N]', ['5.1']));
    for (const name of [pull, few]) {
      const look = report(name, '--lower', '3.0', ...plain);
      expect(validate(look), JSON.stringify(validate.errors)).toBe(true);
      expect(validate({ ...look, version: 2 })).toBe(false);
      expect(validate({ ...look, more: true })).toBe(false);
    }
  });

  test('writes Word and HTML with histogram, probability plot and run chart', () => {
    const words = [pull, '--lower', '30', ...plain];
    expect(analyse(...words, '--format', 'html', '--output', 'look.html').code).toBe(0);
    const html = readFileSync(join(folder, 'look.html'), 'utf8');
    expect(html.match(/<figure/g)).toHaveLength(3);
    expect(html).toContain('not a verification record');
    expect(analyse(...words, '--format', 'docx').out).toContain('Written: build/analysis.docx');
    expect(readFileSync(join(folder, 'build/analysis.docx')).subarray(0, 2).toString()).toBe('PK');
  });

  test('hostile headings and names stay text', () => {
    const heading = '"a""}: [x], sampling: { kind: mean } #<script>alert(1)</script>\u2028 {{ x }} ---"';
    const name = file('hostile "}.csv', csv(heading, force));
    const { out, code } = analyse(name, '--lower', '30', ...plain);
    expect(code).toBe(0);
    expect(out).toContain('normal tolerance interval');
    expect(analyse(name, '--lower', '30', ...plain, '--format', 'html', '--output', 'h.html').code).toBe(0);
    expect(readFileSync(join(folder, 'h.html'), 'utf8')).not.toContain('<script');
    // A group that would end the mapping is only a group that nobody is in.
    const group = analyse(
      pull,
      '--method',
      'equivalence',
      '--compare',
      'a" }, kind: x,b',
      '--confidence',
      '0.95',
      '--lower',
      '-1',
    );
    expect(group.code).toBe(1);
    expect(group.out).toContain('undecided');
  });

  const wrong = file('wrong.csv', 'unit,force [N]\nU1,5\nU2,6\nU3,abc\nU4,\nU5,7\n');
  const text = file('text.csv', 'name\nfirst\nsecond\n');
  const two = file('two.csv', 'a,b\n1,2\n2,3\n');
  const broken = file('broken.csv', new Uint8Array([0x66, 0x0a, 0xff, 0x0a]));
  test.each<readonly [readonly string[], string, string]>([
    [[], 'needs FILE', 'plinth analyse'],
    [['none.csv', '--lower', '1', ...plain], '"none.csv" cannot be read: no such file', 'name of the file'],
    [['.', '--lower', '1', ...plain], '"." is not a file', 'CSV'],
    [[file('empty.csv', ''), '--lower', '1', ...plain], 'empty.csv:1:1: the file is empty', 'heading'],
    [
      [file('head.csv', 'force [N]\n'), '--lower', '1', ...plain],
      'holds a heading and no readings',
      'one row',
    ],
    [
      [file('ragged.csv', 'a,b\n1,2\n3\n'), '--lower', '1', ...plain],
      'ragged.csv:3:1: the row has 1 value',
      'every row',
    ],
    [[broken, '--lower', '1', ...plain], 'broken.csv:2:1: byte 0xff is not UTF-8', 'UTF-8'],
    [
      [wrong, '--lower', '1', ...plain],
      'wrong.csv:4:4: row 4, column "force": "abc" is not a number\n        wrong.csv:5:4:',
      'leaves no reading out',
    ],
    [[text, '--lower', '1', ...plain], 'has no column of numbers; its columns are: name', '--column'],
    [
      [text, '--column', 'name', '--lower', '1', ...plain],
      'text.csv:2:1: row 2, column "name": "first" is not a number',
      'Correct',
    ],
    [[two, '--lower', '1', ...plain], 'two.csv has 2 columns of numbers: a, b', '--column'],
    [[pull, '--column', 'forse', '--lower', '1', ...plain], 'has no column "forse"', 'Did you mean "force"?'],
    [
      [pull, '--lower', '1', ...plain, '--lot', 'lot'],
      'has no column "lot", as --lot asks for',
      'Use one of: force',
    ],
    [
      [pull, '--lower', '5', '--upper', '2', ...plain],
      'the lower limit, 5, is not below the upper one, 2',
      'Exchange',
    ],
    [[pull, ...plain], 'no limit was given', '--lower'],
    [[pull, '--lower', '1'], 'needs --confidence and --reliability', 'For example'],
    [[pull, '--lower', '1', ...claim('1', '0.9')], '--confidence is 1', 'below 1'],
    [[pull, '--lower', '1', ...claim('0.9', '0')], '--reliability is 0', 'above 0'],
    [[pull, '--lower', '1', '--method', 'mena', ...plain], 'there is no evidence method "mena"', '"mean"'],
    [
      [pull, '--lower', '1', '--method', 'capability', ...plain],
      'needs --capability-index',
      'explain capability',
    ],
    [
      [pull, '--lower', '1', '--method', 'attribute', '--accept', '1.5', ...plain],
      '--accept is 1.5, expected a whole number',
      'Correct',
    ],
    [[pull, '--lower', '1', '--unit', 'mm', ...plain], 'N cannot be converted to mm', 'unit'],
    [[pull, '--lower', 'x', ...plain], '--lower is "x", expected a number', 'For example'],
  ])('refuses %j', (words, message, hint) => {
    const { code, out, error } = analyse(...words);
    expect(error).toContain(message);
    expect(error).toContain(hint);
    expect(out).toBe('');
    expect(code).toBe(2);
  });
});

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { projectRoot } from '../support/technical-file.ts';
import { closedSchema } from './closed-schema.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const folder = emptyFolder();
const plan = (...words: readonly string[]) => runPlinth(folder, ['plan', ...words]);
const claim = (confidence: string, reliability: string): readonly string[] => [
  '--confidence',
  confidence,
  '--reliability',
  reliability,
];
const spread = ['--mean', '35', '--sd', '1.2', '--lower', '30'] as const;

interface Report {
  readonly form: string;
  readonly plans: readonly {
    readonly kind: string;
    readonly name: string;
    readonly sampleSize?: number;
    readonly factor?: number;
    readonly probabilityOfPassing?: number;
    readonly cheapest: boolean;
  }[];
  readonly operatingCharacteristic: readonly { failing: number; probabilityOfPassing: number[] }[];
}
const report = (...words: readonly string[]): Report =>
  JSON.parse(plan(...words, '--format', 'json').out) as Report;

describe('plinth plan', () => {
  test.each([
    // Success-run theorem and binomial, tests/planning holds them against a sum by hand.
    ['0.95', '0.95', [59, 93, 124, 153]],
    ['0.95', '0.99', [299, 473, 628, 773]],
  ])('counts %s/%s', (confidence, reliability, sizes) => {
    const { form, plans } = report(...claim(confidence, reliability));
    expect(form).toBe('plinth-plan');
    expect(plans.map(({ sampleSize }) => sampleSize)).toEqual(sizes);
    expect(plans.map(({ cheapest }) => cheapest)).toEqual([true, false, false, false]);
    const { out, code } = plan(...claim(confidence, reliability));
    expect(code).toBe(0);
    for (const size of sizes) expect(out).toMatch(new RegExp(`^attribute, c = \\d +${size} `, 'm'));
    expect(out).toContain(`    size: ${sizes[0]}`);
  });

  test('shows plans side by side with their chance, at 80 columns', () => {
    const { out, code } = plan(...claim('0.95', '0.95'), '--fraction', '0.005');
    expect(code).toBe(0);
    for (const line of out.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
    // 0.995^59 = 0.7440.
    expect(out).toMatch(/attribute, c = 0 +59 +at most 0 failing +0\.7440 +no/);
    expect(out).toMatch(/variables, one limit +34 +k = 2\.1762 +0\.9036 +yes, cheapest/);
    expect(out).toMatch(/sequential +78\.4/);
    expect(out).toContain('kind: normal-tolerance-interval');
    // The axis goes to twice the share that the claim allows.
    expect(out).toMatch(/^ {9}0 % +5 % +10 %$/m);
    expect(out.replace(/\s+/g, ' ')).toContain('dots at 0.5 % (expected) and 5 % (the most');
  });

  test('weighs mean and spread against limits', () => {
    const { plans } = report(...claim('0.95', '0.99'), ...spread);
    const variables = plans.find(({ kind }) => kind === 'variables');
    // k of one limit for n = 18, 95/99: 3.370 (CMH-17-1G, normal basis values, kA).
    expect(variables).toMatchObject({ sampleSize: 18, cheapest: true });
    expect(variables?.factor).toBeCloseTo(3.37, 3);
    const both = plan(
      ...claim('0.95', '0.99'),
      '--mean',
      '20',
      '--sd',
      '0.7',
      '--lower',
      '17',
      '--upper',
      '23',
    );
    expect(both.out).toMatch(/variables, two limits +25 +k = 3\.4621/);
    expect(both.out.replace(/\s+/g, ' ')).toContain('drawn for a spread that grows about the expected mean');
    expect(plan(...claim('0.95', '0.99'), ...spread, '--unit', 'N').out).toContain(
      'mean 35 N, standard deviation 1.2 N; limits ≥ 30 N',
    );
  });

  test('says plainly where no plan passes', () => {
    const { out, code } = plan(...claim('0.95', '0.99'), '--fraction', '0.02');
    expect(code).toBe(0);
    const words = out.replace(/\s+/g, ' ');
    expect(words).toContain('No plan passes the expected quality with a probability of at least 0.9');
    expect(words).toContain('no better than the reliability');
    expect(words).not.toContain('NaN');
  });

  test('the JSON form has no field that its schema does not describe', () => {
    const schema = JSON.parse(readFileSync(join(projectRoot, 'schemas/outputs/plan.schema.json'), 'utf8'));
    const validate = new Ajv2020({ strict: false }).compile(closedSchema(schema) as object);
    const both = ['--mean', '20', '--sd', '0.7', '--lower', '17', '--upper', '23', '--unit', 'mm'];
    for (const words of [[], ['--fraction', '0.005'], ['--fraction', '0.02'], spread, both]) {
      const { operatingCharacteristic, plans, ...rest } = report(...claim('0.95', '0.99'), ...words);
      const whole = { operatingCharacteristic, plans, ...rest };
      expect(validate(whole), JSON.stringify(validate.errors)).toBe(true);
      for (const { probabilityOfPassing } of operatingCharacteristic)
        expect(probabilityOfPassing).toHaveLength(plans.length);
      expect(validate({ ...whole, version: 2 })).toBe(false);
      expect(validate({ ...whole, more: true })).toBe(false);
    }
  });

  test('writes Word and HTML with the curves as figures, the same bytes each time', () => {
    const words = [...claim('0.95', '0.95'), '--fraction', '0.005'];
    expect(plan(...words, '--format', 'html', '--output', 'a.html').code).toBe(0);
    expect(plan(...words, '--format', 'html', '--output', 'b.html').code).toBe(0);
    const html = readFileSync(join(folder, 'a.html'), 'utf8');
    expect(html).toBe(readFileSync(join(folder, 'b.html'), 'utf8'));
    expect(html.match(/<figure/g)).toHaveLength(2);
    expect(html).toContain('expected 0.5 %');
    expect(plan(...words, '--format', 'docx').out).toContain('Written: build/plan.docx');
    expect(readFileSync(join(folder, 'build/plan.docx')).subarray(0, 2).toString()).toBe('PK');
  });

  test.each<readonly [readonly string[], string, string]>([
    [[], 'the option --confidence is missing', '--confidence 0.95'],
    [claim('1', '0.95'), '--confidence is 1, expected a number between 0 and 1', 'a number below 1'],
    [claim('95', '0.95'), '--confidence is 95', 'Write 95 % as 0.95.'],
    [claim('0.95', '0'), '--reliability is 0, expected a number between 0 and 1', 'above 0'],
    [claim('0,95', '0.95'), '--confidence is "0,95", expected a number', 'decimal point'],
    [claim('NaN', '0.95'), '--confidence is "NaN", expected a number', 'For example'],
    [[...claim('0.95', '0.95'), '--fraction', '0'], '--fraction is 0', 'above 0'],
    [
      [...claim('0.95', '0.95'), '--mean', '5', '--sd', '1', '--lower', '9', '--upper', '3'],
      'the lower limit, 9, is not below the upper one, 3',
      'Exchange or correct',
    ],
    [
      [...claim('0.95', '0.95'), ...spread, '--fraction', '0.1'],
      '--fraction and --mean were both given',
      'Give',
    ],
    [[...claim('0.95', '0.95'), '--mean', '5'], '--mean alone does not tell', '--sd'],
    [
      [...claim('0.95', '0.95'), '--mean', '5', '--sd', '0', '--lower', '3'],
      '--sd is 0, expected a number above 0',
      'standard deviation',
    ],
    [[...claim('0.95', '0.95'), '--chance', '0.05'], '--chance is 0.05, expected more than 0.05', '0.9'],
    [[...claim('0.95', '0.95'), ...spread, '--unit', 'furlongs'], 'unknown unit "furlongs"', 'UCUM'],
    [['more'], 'takes no argument', '--help'],
  ])('refuses %j', (words, message, hint) => {
    const { code, out, error } = plan(...words);
    expect(error).toContain(message);
    expect(error).toContain(hint);
    expect(out).toBe('');
    expect(code).toBe(2);
  });
});

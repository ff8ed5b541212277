import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { put } from '../support/real-git.ts';
import { projectRoot, readTree } from '../support/technical-file.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

/** A schema that allows only the fields that it describes. `data` of a finding is free by its nature. */
const closed = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map(closed)
    : typeof value === 'object' && value !== null
      ? {
          ...Object.fromEntries(Object.entries(value).map(([key, each]) => [key, closed(each)])),
          ...('type' in value && value.type === 'object' && 'properties' in value
            ? { additionalProperties: false }
            : {}),
        }
      : value;

describe('plinth vouch', () => {
  const top = emptyFolder();
  for (const [path, bytes] of readTree('content')) put(top, `content/${path}`, bytes);
  const plinth = (...words: readonly string[]) => runPlinth(top, ['vouch', ...words]);

  test('prints the walk at 80 columns, with the measurement and the need', () => {
    const { code, out } = plinth('DI-09');
    expect(code).toBe(0);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    for (const words of [
      'UN-08',
      'VR-09B',
      'verification/data/VR-09B.csv',
      '35.45 N',
      'in force',
      'does not say',
    ])
      expect(out.replace(/\s+/g, ' ')).toContain(words);
  });

  test('draws the same sample for the same seed, and another for another one', () => {
    const ids = (seed: string): readonly string[] => {
      const { out } = plinth('--sample', '3', '--seed', seed, '--format', 'json');
      const report = JSON.parse(out) as { form: string; sample: { population: number; ids: string[] } };
      expect(report.form).toBe('plinth-vouch');
      expect(report.sample.population).toBe(28);
      return report.sample.ids;
    };
    expect(ids('a')).toEqual(ids('a'));
    expect(ids('a')).toHaveLength(3);
    expect(ids('a')).not.toEqual(ids('b'));
  });

  test('walks from several records, each once, and says how to repeat a sample', () => {
    const { out } = plinth('DI-09', 'DI-10', 'DI-09');
    expect(out).toMatch(/^Walks from 2 records to the measurement and to the need\nDI-09, DI-10\n/);
    expect(out.match(/^\d+ DI-\d\d .*$/gm)).toHaveLength(2);
    const sample = plinth('--sample', '2').out.replace(/\s+/g, ' ');
    // The default seed is the day of plinth.yaml.
    expect(sample).toContain('2 of 28 records of type design-input, one plain draw without replacement');
    expect(sample).toContain('with the seed "2026-11-20"');
    expect(plinth('--sample', '2').out).toBe(plinth('--sample', '2').out);
  });

  test('the JSON form has no field that its schema does not describe', () => {
    const schema = JSON.parse(readFileSync(join(projectRoot, 'schemas/outputs/vouch.schema.json'), 'utf8'));
    const validate = new Ajv2020({ strict: false }).compile(closed(schema) as object);
    const report = JSON.parse(plinth('DI-09', 'GR-14', 'RK-03', 'TM-01', '--format', 'json').out) as object;
    expect(validate(report), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ ...report, version: 2 })).toBe(false);
    expect(validate({ ...report, more: true })).toBe(false);
  });

  test('writes Word and HTML', () => {
    expect(plinth('UN-08', '--format', 'html', '--output', 'walk.html').code).toBe(0);
    expect(readFileSync(join(top, 'walk.html'), 'utf8')).toContain('VR-09B');
    expect(plinth('--sample', '2', '--format', 'docx').out).toContain('Written: build/vouch-sample.docx');
    expect(readFileSync(join(top, 'build/vouch-sample.docx')).subarray(0, 2).toString()).toBe('PK');
  });

  test('refuses what it cannot walk from', () => {
    expect(plinth('DI-90').error).toMatch(/there is no record DI-90\nDid you mean DI-\d\d\?/);
    expect(plinth().error).toContain('no record was named');
    expect(plinth('DI-01', '--sample', '2').error).toContain('both given');
    expect(plinth('--sample', 'many').error).toContain('expected a whole number');
    expect(plinth('--sample', '2', '--type', 'design-inputs').error).toContain(
      'Did you mean "design-input"?',
    );
    for (const words of [['DI-90'], [], ['--sample', '0']]) expect(plinth(...words).code).toBe(2);
  });

  test('gives exit code 1 where a chain does not hold', () => {
    const path = join(top, 'content/design-outputs/DO-04.md');
    put(
      top,
      'content/design-outputs/DO-04.md',
      readFileSync(path, 'utf8').replace('plus: 0.05', 'plus: 0.09'),
    );
    const { code, out } = plinth('DI-09');
    expect(code).toBe(1);
    expect(out).toContain('The chain does not hold everywhere');
  });
});

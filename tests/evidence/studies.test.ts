import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { EvidenceResult } from '../../src/evidence/result.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom } from '../support/technical-file.ts';

const studied = (csv: string, study: string): EvidenceResult => {
  const files = new Map([
    ['plinth.yaml', 'device: { name: Test device, maker: Harrow Lane Instruments }\n'],
    [
      'TM-01.md',
      `---\nid: TM-01\ntype: test-method\ntitle: A method\nstatus: draft\ncharacteristic: force\nunit: N\nstudy: { file: d.csv, sha256: "${'0'.repeat(64)}", ${study} }\n---\n## Procedure\n`,
    ],
    ['d.csv', csv],
  ]);
  const { evidence, findings } = analyse(inputsFrom(files), []);
  const result = evidence.get('TM-01');
  if (!result) throw new Error(findings.map((finding) => finding.message).join('\n'));
  return result;
};

const value = (result: EvidenceResult, key: string): number | undefined =>
  result.characteristics[0]?.values.find((each) => each.key === key)?.value;

describe('crossed gauge study', () => {
  const aiag = readFileSync(
    new URL('../statistics/data/grr_aiag_10x3x3.csv', import.meta.url),
    'utf8',
  ).replace('appraiser,part,trial,value', 'operator,part,trial,reading [N]');
  const run = (csv: string, more = '') => studied(csv, `kind: crossed-gauge-study, tolerance: 10${more}`);

  test('of the AIAG data gives its published variances', () => {
    // AIAG Measurement Systems Analysis, 4th ed.; by analysis of variance with pooled interaction, McNeese 2015:
    // gauge variance 0.0914, part variance 1.086, 4 distinct categories.
    const result = run(aiag);
    expect(value(result, 'percent_tolerance')).toBeCloseTo((6 * Math.sqrt(0.0914) * 100) / 10, 1);
    expect(value(result, 'percent_study_variation')).toBeCloseTo(
      100 * Math.sqrt(0.0914 / (0.0914 + 1.086)),
      1,
    );
    expect(value(result, 'distinct_categories')).toBe(4);
    expect(result.verdict).toBe('pass');
    expect(result.reason).toMatch(/take 18\.1 % of the tolerance of 10 N, accepted up to 30 %/);
  });

  test('fails above what is accepted', () => {
    expect(run(aiag, ', accept_percent: 18').verdict).toBe('fail');
    expect(run(aiag, ', accept_percent: 18.2').verdict).toBe('pass');
  });

  test('converts readings to the unit of the method', () => {
    const kilo = aiag.replace('[N]', '[kN]').replace(/(-?[\d.]+)$/gm, (text) => String(Number(text) / 1000));
    expect(value(run(kilo), 'percent_tolerance')).toBeCloseTo(value(run(aiag), 'percent_tolerance') ?? 0, 9);
    expect(run(aiag.replace('[N]', '[mm]'))).toMatchObject({
      verdict: 'undecided',
      reason: expect.stringContaining('cannot be converted to N'),
    });
  });

  test.each<[string, (text: string) => string, string]>([
    ['a blank reading', (text) => text.replace(/0\.29$/m, ''), 'd.csv:2 data-cell-blank'],
    ['a word', (text) => text.replace(/0\.29$/m, 'high'), 'd.csv:2 data-cell-wrong'],
    ['a bound', (text) => text.replace(/0\.29$/m, '<0.3'), 'd.csv:2 data-cell-wrong'],
    ['a part without a name', (text) => text.replace('A,1,1', 'A,,1'), 'd.csv:2 data-cell-blank'],
    [
      'a column that is not there',
      (text) => text.replace('operator', 'person'),
      'TM-01.md:8 method-inputs-missing',
    ],
  ])('does not decide on %s', (_, change, expected) => {
    const result = run(change(aiag));
    expect(result.verdict).toBe('undecided');
    expect(
      `${result.findings[0]?.place.file}:${result.findings[0]?.place.line} ${result.findings[0]?.code}`,
    ).toBe(expected);
  });

  test('does not decide where a row is gone, or nothing varies', () => {
    expect(
      run(
        aiag
          .split('\n')
          .filter((_, index) => index !== 5)
          .join('\n'),
      ).verdict,
    ).toBe('undecided');
    expect(run(aiag.replace(/-?[\d.]+$/gm, '1')).verdict).toBe('undecided');
    expect(run('part,operator,reading\n').verdict).toBe('undecided');
    expect(studied(aiag, 'kind: crossed-gauge-study').reason).toContain('study.tolerance is missing');
    expect(studied(aiag, 'kind: crossed-gauge-study, tolerance: 1e-308').verdict).not.toBe('pass');
    expect(studied(aiag, 'kind: gauge')).toMatchObject({
      verdict: 'undecided',
      findings: [{ code: 'method-unknown' }],
    });
  });
});

describe('attribute agreement study', () => {
  /** 10 parts, 4 of them bad, 2 inspectors, 2 trials; some calls are changed. */
  const data = (wrong: readonly string[] = [], change: (row: string) => string = (row) => row): string =>
    `part,reference,inspector,trial,call\n${Array.from({ length: 10 }, (_, part) =>
      ['A', 'B'].flatMap((inspector) =>
        [1, 2].map((trial) => {
          const reference = part < 4 ? 'fail' : 'pass';
          const call = wrong.includes(`${part}${inspector}${trial}`)
            ? reference === 'fail'
              ? 'pass'
              : 'fail'
            : reference;
          return change(`${part},${reference},${inspector},${trial},${call}`);
        }),
      ),
    )
      .flat()
      .join('\n')}\n`;
  const run = (csv: string) => studied(csv, 'kind: attribute-agreement, accept_percent: 90');

  test('passes with every call right, and counts each part once', () => {
    expect(value(run(data()), 'smallest_effectiveness')).toBe(100);
    const one = run(data(['5A1', '5A2']));
    expect(value(one, 'smallest_effectiveness')).toBe(90);
    expect(one.verdict).toBe('pass');
    const two = run(data(['5A1', '6A2']));
    expect(value(two, 'smallest_effectiveness')).toBe(80);
    expect(two.verdict).toBe('fail');
  });

  test('counts bad parts that were passed', () => {
    expect(value(run(data(['1A1', '1B2', '2B1', '7A1'])), 'misses')).toBe(3);
  });

  test('does not mind capitals', () => {
    expect(run(data([], (row) => row.replace('fail', 'Fail'))).verdict).toBe('pass');
  });

  test.each<[string, string, string]>([
    [
      'a blank call',
      data([], (row) => (row.startsWith('3,fail,A,2') ? '3,fail,A,2,' : row)),
      'the cell is empty',
    ],
    [
      'a call of another word',
      data([], (row) => (row.startsWith('3,fail,A,2') ? '3,fail,A,2,unsure' : row)),
      '"unsure" is no state that a part has',
    ],
    [
      'a part with two states',
      data([], (row) => (row.startsWith('3,fail,A,2') ? '3,pass,A,2,pass' : row)),
      'the part 3 is "fail" elsewhere',
    ],
    ['no bad part', data([], (row) => row.replaceAll('fail', 'pass')), 'no part is bad by its reference'],
    ['a missing column', data().replace('reference', 'truth'), 'needs the columns part, reference'],
  ])('does not decide on %s', (_, csv, words) => {
    const result = run(csv);
    expect(result.verdict).toBe('undecided');
    expect(result.findings[0]?.message).toContain(words);
    expect(result.findings[0]?.hint).toBeTruthy();
  });
});

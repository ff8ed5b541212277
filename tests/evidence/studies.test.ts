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

  test('tells whether the repeats look normal, and decides nothing by it', () => {
    const normality = (csv: string) =>
      run(csv).characteristics[0]?.assumptions.find((each) => each.name.startsWith('normal'));
    expect(normality(aiag)).toMatchObject({
      outcome: 'met',
      detail: expect.stringMatching(/^Anderson-Darling/),
    });
    // One reading in ninety a hundred times beyond the others.
    const slip = aiag.replace(/^(.*,.*,.*,)[-\d.]+$/m, '$190');
    expect(normality(slip)).toMatchObject({ outcome: 'to explain' });
    expect(run(slip).verdict).toBe('fail');
  });

  test('of readings that never differ asks for a finer resolution', () => {
    const constant = aiag.replace(/,-?[\d.]+$/gm, ',5');
    const result = run(constant);
    expect(result.verdict).toBe('undecided');
    expect(result.characteristics[0]?.remedy).toContain('finer resolution');
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

describe('limits of a crossed gauge study', () => {
  /** Houf and Berman 1988; limits as in the tests of the public R package gaugerr. */
  const thermal = readFileSync(
    new URL('../statistics/data/thermal_impedance_10x3x3.csv', import.meta.url),
    'utf8',
  ).replace('part,operator,value', 'part,operator,reading [N]');
  const run = (more = '') => studied(thermal, `kind: crossed-gauge-study, tolerance: 30${more}`);

  test('are reported, and decide only where that is asked for', () => {
    const result = run(', accept_percent: 30');
    expect(value(result, 'percent_tolerance')).toBeCloseTo(20 * Math.sqrt(1.8037037), 5);
    expect(value(result, 'percent_tolerance_upper')).toBeCloseTo(20 * Math.sqrt(27.0172388372), 6);
    expect(value(result, 'percent_study_variation_upper')).toBeCloseTo(100 * Math.sqrt(0.3715152548), 6);
    expect(value(result, 'distinct_categories_lower')).toBe(1);
    expect(result.verdict).toBe('pass');
    const bound = run(', accept_percent: 30, decide_on: confidence bound');
    expect(bound.verdict).toBe('fail');
    expect(bound.reason).toBe(
      'repeatability and reproducibility take at most 104.0 % of the tolerance of 30 N (upper end of the two-sided 95 % interval), accepted up to 30 %',
    );
    expect(value(run(', confidence: 0.9'), 'percent_tolerance_upper')).toBeLessThan(
      value(result, 'percent_tolerance_upper') ?? 0,
    );
  });

  test('the working can be repeated: analysis of variance and components', () => {
    const [anova, components] = run().characteristics[0]?.tables ?? [];
    expect(anova?.rows.map((row) => [row[0], row[1], row[4]])).toEqual([
      ['part', '9', '162.270'],
      ['operator', '2', '7.285'],
      ['operator by part', '18', '5.273'],
      ['repeatability', '60', '–'],
    ]);
    expect(components?.rows[0]?.slice(0, 4)).toEqual([
      'gauge (repeatability and reproducibility)',
      '1.8037',
      '1.2062 to 27.017',
      '1.3430',
    ]);
    for (const table of [anova, components])
      for (const row of table?.rows ?? []) expect(row.length).toBe(table?.columns.length);
  });
});

describe('gauge study by averages and ranges', () => {
  const aiag = readFileSync(
    new URL('../statistics/data/grr_aiag_10x3x3.csv', import.meta.url),
    'utf8',
  ).replace('appraiser,part,trial,value', 'operator,part,trial,reading [N]');
  const run = (csv: string, more = '') =>
    studied(csv, `kind: average-and-range-gauge-study, tolerance: 10${more}`);

  test('of the AIAG data gives 26.68 % of the study variation and 5 categories (4th edition)', () => {
    const result = run(aiag);
    expect(value(result, 'percent_study_variation')).toBeCloseTo(26.68, 2);
    expect(value(result, 'distinct_categories')).toBe(5);
    expect(value(result, 'percent_tolerance')).toBeCloseTo(60 * 0.30575, 1);
    expect(result.verdict).toBe('pass');
    expect(result.characteristics[0]?.tables?.[0]?.rows[0]).toEqual([
      'mean range of the repeats',
      '0.34167',
      '0.5908',
    ]);
  });

  test('has no bound to decide on, and needs every reading', () => {
    expect(run(aiag, ', decide_on: confidence bound')).toMatchObject({
      verdict: 'undecided',
      reason: expect.stringContaining('this method does not give'),
    });
    expect(run(aiag.split('\n').slice(0, -2).join('\n')).verdict).toBe('undecided');
    expect(studied(aiag, 'kind: average-and-range-gauge-study').reason).toContain(
      'study.tolerance is missing',
    );
  });
});

describe('nested gauge study', () => {
  /** Montgomery's spindle data, as in tests/statistics/nested-gauge.test.ts. */
  const spindles = [
    [
      [12, 9, 11, 12],
      [8, 9, 10, 8],
    ],
    [
      [14, 15, 13, 14],
      [12, 10, 11, 13],
    ],
    [
      [14, 10, 12, 11],
      [16, 15, 15, 14],
    ],
  ];
  const csv = `part,operator,reading [N]\n${spindles
    .flatMap((parts, o) =>
      parts.flatMap((values, p) => values.map((reading) => `O${o}P${p},O${o},${reading}\n`)),
    )
    .join('')}`;
  const run = (text: string, more = '') => studied(text, `kind: nested-gauge-study, tolerance: 60${more}`);

  test('gives the components of the published analysis', () => {
    const result = run(csv);
    // Six times the root of 1.661458 + 1.472222, over 60.
    expect(value(result, 'percent_tolerance')).toBeCloseTo(10 * Math.sqrt(3.1336806), 5);
    expect(result.verdict).toBe('pass');
    expect(run(csv, ', accept_percent: 17').verdict).toBe('fail');
    expect(result.characteristics[0]?.tables?.[0]?.rows.map((row) => row[4])).toEqual([
      '1.911',
      '9.906',
      '–',
    ]);
    expect(result.characteristics[0]?.assumptions.map((each) => each.name)).toContain(
      'pieces of a part alike',
    );
  });

  test('tells why it does not decide', () => {
    expect(run(csv.replaceAll('O1P0', 'O0P0'))).toMatchObject({
      verdict: 'undecided',
      reason: expect.stringContaining('both measured part O0P0'),
    });
    const gap = run(csv.split('\n').slice(0, -2).join('\n'));
    expect(gap).toMatchObject({
      verdict: 'undecided',
      reason: expect.stringContaining('measured 3 times, not 4 times as most'),
    });
    expect(gap.characteristics[0]?.remedy).toContain('Complete the study');
    expect(run('part,operator,reading\n').verdict).toBe('undecided');
  });
});

describe('bias and linearity study', () => {
  const row = (reference: number, reading: number) => `${reference},${Number(reading.toFixed(4))}\n`;
  /** Five references, eight readings each, normal by their quantiles; the bias grows by 1 % of the reference. */
  const scatter = [-1.43, -0.85, -0.47, -0.15, 0.15, 0.47, 0.85, 1.43];
  const data = (bias: (reference: number) => number, heading = 'reference [N],reading [N]') =>
    `${heading}\n${[2, 4, 6, 8, 10]
      .flatMap((reference) =>
        scatter.map((score) => row(reference, reference + bias(reference) + 0.05 * score)),
      )
      .join('')}`;
  const run = (csv: string, more = ', accept_bias: 0.2') =>
    studied(csv, `kind: bias-and-linearity-study${more}`);

  test('passes where all bounds keep within what is accepted', () => {
    const result = run(data((reference) => 0.01 * reference));
    expect(result.verdict).toBe('pass');
    expect(value(result, 'slope')).toBeCloseTo(0.01, 9);
    expect(value(result, 'intercept')).toBeCloseTo(0, 9);
    expect(value(result, 'largest_bias')).toBeCloseTo(0.1, 9);
    // t(1 - 0.05 / 5 / 2, 7) = 3.4995 (any table of Student's t at 0.995).
    const spread = 0.05 * Math.sqrt(scatter.reduce((sum, score) => sum + score ** 2, 0) / 7);
    expect(value(result, 'bias_bound')).toBeCloseTo(0.1 + (3.4995 * spread) / Math.sqrt(8), 4);
    expect(result.reason).toMatch(
      /^the farther end of the two-sided 95 % interval of the bias is 0\.157 N at the reference 10 N, accepted up to 0\.2 N$/,
    );
    expect(result.characteristics[0]?.assumptions.map((each) => each.outcome)).toEqual(['met', 'met', 'met']);
  });

  test('fails where one bound leaves it, on either side', () => {
    expect(
      run(
        data(() => 0),
        ', accept_bias: 0.05',
      ).verdict,
    ).toBe('fail');
    expect(run(data(() => -0.15)).verdict).toBe('fail');
    expect(run(data(() => 0)).verdict).toBe('pass');
  });

  test('the figures of the AIAG linearity data; the two strays at the reference 4 keep it from deciding', () => {
    const aiag = readFileSync(
      new URL('../statistics/data/linearity_aiag_5x12.csv', import.meta.url),
      'utf8',
    ).replace('reference,value', 'reference [N],reading [N]');
    const result = run(aiag, ', accept_bias: 2');
    expect(value(result, 'slope')).toBeCloseTo(-0.1317, 4);
    expect(value(result, 'intercept')).toBeCloseTo(0.7367, 4);
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain('the readings at the reference 4 do not look normal');
    expect(result.characteristics[0]?.remedy).toContain('Look for a slip');
  });

  test('a bend is told, and does not decide', () => {
    const result = run(
      data((reference) => 0.02 * (reference - 6) ** 2),
      ', accept_bias: 1',
    );
    expect(result.verdict).toBe('pass');
    expect(
      result.characteristics[0]?.assumptions.find((each) => each.name === 'bias on a line'),
    ).toMatchObject({
      outcome: 'not met',
    });
  });

  test('converts both columns, and one reference needs no line', () => {
    const milli = `reference [mN],reading [N]\n${scatter.map((score) => `5000,${5 + 0.01 * score}\n`).join('')}`;
    const result = run(milli);
    expect(result.verdict).toBe('pass');
    expect(value(result, 'slope')).toBeUndefined();
    expect(value(result, 'largest_bias')).toBeCloseTo(0, 9);
  });

  test.each<[string, string, string]>([
    ['two readings at a reference', 'reference,reading\n1,1\n1,1.1\n2,2\n2,2.1\n', 'is not known'],
    ['one reading at a reference', 'reference,reading\n1,1\n1,1.1\n2,2\n', '1 reading at reference 2'],
    ['no spread', 'reference,reading\n1,1\n1,1\n1,1\n', 'the resolution hides the spread'],
    ['a word', 'reference,reading\n1,low\n', 'some cells of the study cannot be used'],
    ['a blank', 'reference,reading\n1,\n', 'some cells of the study cannot be used'],
    ['a missing column', 'ref,reading\n1,1\n', 'needs the columns reference and reading'],
    ['another dimension', 'reference [mm],reading [N]\n1,1\n', 'cannot be converted to N'],
    ['nothing', 'reference,reading\n', '0 readings'],
  ])('does not decide on %s', (_, csv, words) => {
    const result = run(csv);
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(words);
  });

  test('needs to be told what is accepted', () => {
    expect(
      run(
        data(() => 0),
        '',
      ).reason,
    ).toContain('study.accept_bias is missing');
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

  test('fails where an inspector passes more than one bad part in twenty, however effective he looks', () => {
    // 20 parts, 1 bad, found in one of two trials: effectiveness 95 %, half of the bad calls missed.
    const rows = Array.from({ length: 20 }, (_, part) =>
      ['A', 'B'].flatMap((inspector) =>
        [1, 2].map((trial) => {
          const reference = part === 0 ? 'fail' : 'pass';
          return `${part},${reference},${inspector},${trial},${part === 0 && trial === 1 ? 'pass' : reference}`;
        }),
      ),
    );
    const result = run(`part,reference,inspector,trial,call\n${rows.flat().join('\n')}\n`);
    expect(value(result, 'smallest_effectiveness')).toBe(95);
    expect(result.verdict).toBe('fail');
    expect(result.reason).toContain('A passed 1 of 2 calls of bad parts, more than 5 %');
  });

  test('a handful of parts, or a single trial, does not decide', () => {
    const single = data()
      .split('\n')
      .filter((line) => !/,2,(?:pass|fail)$/.test(line))
      .join('\n');
    expect(run(single).verdict).toBe('undecided');
    const few = data()
      .split('\n')
      .filter((line) => !/^[4-9],/.test(line) || /^[45],/.test(line))
      .join('\n');
    expect(run(few)).toMatchObject({
      verdict: 'undecided',
      reason: expect.stringContaining('6 parts in 2 trials are too few to tell'),
    });
  });

  test('passes with every call right, and counts each part once', () => {
    expect(value(run(data()), 'smallest_effectiveness')).toBe(100);
    const one = run(data(['5A1', '5A2']));
    expect(value(one, 'smallest_effectiveness')).toBe(90);
    expect(one.verdict).toBe('pass');
    const two = run(data(['5A1', '6A2']));
    expect(value(two, 'smallest_effectiveness')).toBe(80);
    expect(two.verdict).toBe('fail');
  });

  test('one who calls everything good finds nothing, however few the bad parts are', () => {
    // Two bad parts of twenty: calling all good is right in 90 %.
    const all = (call: string, bad: number): string =>
      `part,reference,inspector,trial,call\n${Array.from({ length: 20 }, (_, part) =>
        ['A', 'B'].flatMap((inspector) =>
          [1, 2].map((trial) => `${part},${part < bad ? 'fail' : 'pass'},${inspector},${trial},${call}`),
        ),
      )
        .flat()
        .join('\n')}\n`;
    const blind = run(all('pass', 2));
    expect(value(blind, 'smallest_effectiveness')).toBe(90);
    expect(blind.verdict).toBe('fail');
    expect(blind.reason).toContain('A passed every bad part; B passed every bad part');
    expect(run(all('fail', 20)).verdict).not.toBe('pass');
    expect(run(all('pass', 0)).verdict).not.toBe('pass');
  });

  test('decides on the bound where that is asked for: 10 of 10 is at least 0.025^(1/10), 69.2 %', () => {
    const result = studied(
      data(),
      'kind: attribute-agreement, accept_percent: 69, decide_on: confidence bound',
    );
    expect(value(result, 'smallest_effectiveness_lower')).toBeCloseTo(100 * 0.025 ** 0.1, 9);
    expect(result.verdict).toBe('pass');
    expect(result.reason).toContain('lower end of the two-sided 95 % interval 69.2 %, accepted from 69 %');
    expect(
      studied(data(), 'kind: attribute-agreement, accept_percent: 70, decide_on: confidence bound').verdict,
    ).toBe('fail');
  });

  test('shows each inspector: own trials, reference, misses and false alarms', () => {
    const result = run(data(['1A1', '1B2', '7B1', '7B2']));
    const rows = result.characteristics[0]?.tables?.[0]?.rows ?? [];
    expect(rows.map((row) => [row[0], row[1], row[3], row[6], row[7]])).toEqual([
      ['A', '9 of 10', '9 of 10', '1 of 8', '0 of 12'],
      ['B', '9 of 10', '8 of 10', '1 of 8', '2 of 12'],
      ['all together', '8 of 10', '8 of 10', '–', '–'],
    ]);
    expect(value(result, 'false_alarms')).toBe(2);
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

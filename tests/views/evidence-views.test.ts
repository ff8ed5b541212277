import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import type { Figure } from '../../src/document/model.ts';
import { analyse } from '../../src/pipeline.ts';
import { writeHtml } from '../../src/writers/html/write-html.ts';
import { csvOf, filesOf, normalReadings } from '../evidence/test-run.ts';
import { inputsFrom } from '../support/technical-file.ts';
import { demonstration, said, withDocument } from './with-document.ts';

const view = (name: string, body: string) => `# Trial\n\n\`\`\`plinth ${name}\n${body}\n\`\`\``;
const textOf = (document: ReturnType<typeof withDocument>): string => documentText(document.document);
const figuresIn = ({ document }: ReturnType<typeof withDocument>): readonly Figure[] =>
  document.blocks.flatMap((block) => (block.kind === 'figure' ? [block] : []));

describe('the working of a record', () => {
  const document = withDocument(view('evidence', 'of: [VR-09A]'));
  const text = textOf(document);

  test('names protocol, plan, method, source of the formula, raw data and digest', () => {
    const bytes = demonstration.get('verification/data/VR-09A.csv');
    const digest = createHash('sha256')
      .update(bytes ?? '')
      .digest('hex');
    for (const words of [
      'VP-09A',
      'confidence 0.95, reliability 0.99, size 30',
      'normal tolerance interval',
      'ISO 16269-6',
      'verification/data/VR-09A.csv',
      `${digest}, as the record states`,
      '95/99 lower tolerance bound 29.12 N, required at least 30 N',
    ])
      expect(text).toContain(words);
  });

  test.each([
    ['lognormal-tolerance-bound', 'exp('],
    ['transformed-normal-tolerance-interval, power: 0.5', 'to the power 1 / 0.5'],
  ])('of %s leads back to the readings', (kind, way) => {
    const readings = normalReadings(20, 3, 0.4).map((value) => Math.exp(value).toFixed(3));
    const files = filesOf({
      acceptance: '{ characteristic: force, unit: N, upper: 400 }',
      sampling: `kind: ${kind}, confidence: 0.95, reliability: 0.95`,
      csv: csvOf(readings),
    });
    const shown = textOf(withDocument(view('evidence', 'of: [VR-01]'), files));
    const line = /By hand: 95\/95 upper tolerance bound = (.*)\./.exec(shown)?.[1] ?? '';
    expect(line).toContain(way);
    // A reader with a pocket calculator repeats the last two steps from the printed numbers.
    const [, working = '', printed] = line.split(' = ');
    const [mean = 0, k = 0, s = 0] = (
      /([-\d.]+) \+ ([\d.]+) × ([\d.]+)/.exec(working.replace('−', '-')) ?? []
    )
      .slice(1)
      .map(Number);
    const inner = mean + k * s;
    const worked = way === 'exp(' ? Math.exp(inner) : (1 + 0.5 * inner) ** 2;
    expect(worked / Number(printed)).toBeCloseTo(1, 6);
  });

  test('of a Weibull bound leads from scale and shape to the bound', () => {
    const files = filesOf({
      acceptance: '{ characteristic: force, unit: N, lower: 20 }',
      sampling: 'kind: weibull-lower-bound, confidence: 0.95, reliability: 0.95',
      csv: csvOf([41, 48, 52, 45, 50, 47, 44, 49, 51, 46]),
    });
    const shown = textOf(withDocument(view('evidence', 'of: [VR-01]'), files));
    const [, scale = 0, q = 0, shape = 0, bound = 0] = (
      /= ([\d.]+) × exp\(−([\d.]+) \/ ([\d.]+)\) = ([\d.]+)\./.exec(shown) ?? []
    ).map(Number);
    expect((scale * Math.exp(-q / shape)) / bound).toBeCloseTo(1, 6);
  });

  test('shows readings beyond the range as what they are', () => {
    const files = filesOf({
      acceptance: '{ characteristic: force, unit: N, upper: 17 }',
      sampling: 'kind: nonparametric-tolerance-interval, confidence: 0.9, reliability: 0.5',
      csv: csvOf(['<15', 12.5, 13, '<15', 14]),
    });
    const shown = textOf(withDocument(view('evidence', 'of: [VR-01]'), files));
    expect(shown).toContain('in the order of the file (5): <15.0, 12.5, 13.0, <15.0, 14.0.');
  });

  test('can be repeated by hand: the readings printed give the mean, standard deviation and bound printed', () => {
    const list = /in the order of the file \(30\): ([\d., ]+)\./.exec(text)?.[1];
    const readings = list?.split(', ').map(Number) ?? [];
    expect(readings.length).toBe(30);
    const mean = readings.reduce((sum, value) => sum + value, 0) / 30;
    const deviation = Math.sqrt(readings.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 29);
    const hand =
      /By hand: 95\/99 lower tolerance bound = mean − k × standard deviation = ([\d.]+) − ([\d.]+) × ([\d.]+) = ([\d.]+)\./.exec(
        text,
      );
    const [, m, k, s, bound] = hand?.map(Number) ?? [];
    expect(m).toBeCloseTo(mean, 5);
    expect(s).toBeCloseTo(deviation, 5);
    expect((m ?? 0) - (k ?? 0) * (s ?? 0)).toBeCloseTo(bound ?? 0, 5);
    // ISO 16269-6:2014, one-sided factor for n = 30, 99 % and 95 %: 3.064 (Natrella, table A-7; from memory).
    expect(k).toBeCloseTo(3.064, 3);
  });

  test('shows assumptions with results, and the usual figures', () => {
    expect(text).toContain('Anderson-Darling');
    expect(figuresIn(document).map((figure) => figure.caption)).toEqual([
      'Readings, limits and fitted curve: tip retention force, VR-09A',
      'Normal probability plot: tip retention force, VR-09A',
    ]);
    for (const figure of figuresIn(document)) expect(figure.alternative).toContain('lower limit 30 N');
  });

  test('figures can be chosen, and left out', () => {
    const chosen = withDocument(view('evidence', 'of: [VR-09A]\nfigures: [run-chart]'));
    expect(figuresIn(chosen).map((figure) => figure.caption)).toEqual([
      'Readings in the order of the file: tip retention force, VR-09A',
    ]);
    expect(figuresIn(withDocument(view('evidence', 'of: [VR-09A]\nfigures: []')))).toEqual([]);
  });

  test('an analysis shows its inputs under their titles and in their units; a plan is drawn once', () => {
    const analysis = textOf(
      withDocument(view('evidence', 'of: [AN-01, AN-03, AN-21, AN-21A, AN-14, AN-15]')),
    );
    for (const words of [
      'Formula: F / (a / b) / eta + S + c · t',
      'F: 45 ± 2 N',
      'a: DO-03 pad arm',
      'eta: 0.75 ± 0.03',
      'Judged by: worst case',
      'Unit of the result: mm³',
      'Constant: π/4 (0.785398)',
      'Term 1: DO-01 bore diameter, to the power 2',
      'Term 2: DO-02 rack pitch',
      'Q10: 2.0',
      'Ageing temperature: 55 °C',
      'Claimed time: 1095 d',
      'Real-time ageing: from 2026-01-12, tested after 12, 24 and 36 months',
      'Longest gap: 2 h',
      'Highest humidity: 75 %',
      'Population: 10⁶',
      'Ethylene oxide, first day: 0.42 mg',
    ])
      expect(analysis).toContain(words);
    expect(
      figuresIn(withDocument(view('evidence', 'of: [VR-12]'))).filter((figure) =>
        figure.caption.startsWith('Operating'),
      ).length,
    ).toBe(1);
  });

  test('a study shows its analysis of variance and components', () => {
    const study = withDocument(view('evidence', 'of: [TM-01]'));
    expect(textOf(study)).toContain('operator by part');
    expect(textOf(study)).toContain('Tolerance: 10.8 N');
    expect(textOf(study)).toContain('Accept up to: 30 %');
    expect(figuresIn(study).map((figure) => figure.caption.split(':')[0])).toEqual([
      'Components of variation',
    ]);
  });

  test('a raw-data file that is not the stated one is told', () => {
    const files = filesOf({
      acceptance: '{ characteristic: force, unit: N, lower: 8 }',
      sampling: 'kind: normal-tolerance-interval, confidence: 0.95, reliability: 0.9',
      csv: csvOf(normalReadings(20, 10, 0.5).map((value) => value.toFixed(3))),
    });
    expect(textOf(withDocument(view('evidence', 'of: [VR-01]'), files))).toContain(
      ', not the one that the record states',
    );
  });

  test('what does not decide says what to do', () => {
    const files = filesOf({
      acceptance: '{ characteristic: force, unit: N, lower: 8 }',
      sampling: 'kind: normal-tolerance-interval, confidence: 0.95, reliability: 0.9',
      csv: csvOf([10, 10.1, 10.2, 10.1, 10, 10.2, 10.1, 10, 10.1, 50]),
    });
    const text = textOf(withDocument(view('evidence', 'of: [VR-01]'), files));
    expect(text).toContain('undecided');
    expect(text).toContain('What to do: ');
    expect(text).toContain('not met');
  });

  test('two groups that are compared show the readings of each, from which the shift can be worked out', () => {
    const [fresh, aged] = [normalReadings(12, 52, 1.5), normalReadings(10, 51.6, 1.4)];
    const rows = [
      ...fresh.map((value, index) => `F${index + 1},fresh,${value.toFixed(3)}`),
      ...aged.map((value, index) => `A${index + 1},aged,${value.toFixed(3)}`),
    ];
    const files = filesOf({
      acceptance: '{ characteristic: force, unit: N, lower: -2, upper: 2 }',
      sampling: 'kind: equivalence, confidence: 0.95, size: 22, compare: { from: fresh, to: aged }',
      data: 'unit_id: unit\n  group: group',
      csv: `unit,group,force [N]\n${rows.join('\n')}\n`,
    });
    const document = withDocument(view('evidence', 'of: [VR-01]'), files);
    const text = textOf(document);
    const listed = (name: string): readonly number[] =>
      new RegExp(`Readings of ${name} in N \\(\\d+\\): ([\\d., ]+)\\.`)
        .exec(text)?.[1]
        ?.split(', ')
        .map(Number) ?? [];
    const mean = (values: readonly number[]): number =>
      values.reduce((sum, value) => sum + value, 0) / values.length;
    expect([listed('fresh').length, listed('aged').length]).toEqual([12, 10]);
    expect(text).toContain('shift of the mean from fresh to aged −0.4');
    expect(mean(listed('aged')) - mean(listed('fresh'))).toBeCloseTo(-0.4, 3);
    expect(figuresIn(document).map((figure) => figure.caption)).toEqual([
      'Readings and means of the groups: force, VR-01',
    ]);
  });

  test('what is drawn of two groups are readings, so the axis does not call them a shift', () => {
    const [plot] = figuresIn(withDocument(view('evidence', 'of: [VR-21]')));
    expect(plot?.svg).toContain('>readings, force [N]<');
    expect(plot?.alternative).toMatch(/^readings, force by group: fresh, 30 readings from /);
    expect(plot?.caption).toContain('shift of the squeeze force by ageing');
  });

  test('numbers are set as engineers set them', () => {
    const shown = textOf(withDocument(view('evidence', 'of: [VR-21, AN-14, VR-19C]')));
    for (const words of [
      'allowed −3 to 3 N',
      '< 0.0001',
      '2.96747094332 × 10⁻⁵',
      'from 50 organisms to 1.2 × 10⁻¹³, required 1.0 × 10⁻⁶',
      'Sterility assurance level, ≤ 10⁻⁶',
      '4.01 × 10⁸ CFU',
      '< 0.0001 %',
    ])
      expect(shown).toContain(words);
    expect(shown.replace(/[0-9a-f]{64}/g, '')).not.toMatch(/\de[-+]?\d/);
    expect(shown).not.toMatch(/[ (]-\d/);
  });

  test('a formula in newtons is one in kg·m·s⁻²', () => {
    // BIPM, SI brochure, 9th edition, table 4: 1 N = 1 kg m s-2.
    expect(textOf(withDocument(view('evidence', 'of: [AN-01]')))).toContain(
      'the formula gives kg·m·s⁻², as the limit does',
    );
  });

  test('readings that are made normal are plotted on the scale on which they are', () => {
    const files = filesOf({
      acceptance: '{ characteristic: force, unit: N, lower: 1 }',
      sampling: 'kind: lognormal-tolerance-bound, confidence: 0.95, reliability: 0.9, size: 20',
      csv: csvOf(normalReadings(20, 2, 0.3).map((value) => Math.exp(value).toFixed(3))),
    });
    const figures = figuresIn(withDocument(view('evidence', 'of: [VR-01]'), files));
    const plot = figures.find((figure) =>
      figure.caption.startsWith('Normal probability plot of the transformed'),
    );
    expect(plot?.svg).toContain('natural logarithm of force');
    // The limit of 1 N is 0 on the scale of logarithms.
    expect(plot?.alternative).toMatch(/lower limit, transformed/);
  });

  test('units that all conformed are no bar of a histogram', () => {
    const files = filesOf({
      acceptance: '{ characteristic: force, unit: N, lower: 8 }',
      sampling: 'kind: success-run, confidence: 0.95, reliability: 0.9, size: 29',
      csv: csvOf(Array.from({ length: 29 }, () => 10)),
    });
    expect(
      figuresIn(withDocument(view('evidence', 'of: [VR-01]'), files)).map((figure) => figure.caption),
    ).toEqual(['Operating characteristic of the plan: force, VR-01']);
  });

  test('more than 120 readings are left to the file', () => {
    const files = filesOf({
      acceptance: '{ characteristic: force, unit: N, lower: 8 }',
      sampling: 'kind: all-units',
      csv: csvOf(normalReadings(121, 10, 0.5).map((value) => value.toFixed(3))),
    });
    const text = textOf(withDocument(view('evidence', 'of: [VR-01]'), files));
    expect(text).toContain('The 121 readings are in the raw-data file');
    expect(text).not.toContain('in the order of the file (121)');
  });
});

test('every record of the demonstration file that carries evidence shows its working, in words and numbers', () => {
  const ids = [...analyse(inputsFrom(demonstration), []).evidence.keys()];
  expect(ids.length).toBeGreaterThan(30);
  const document = withDocument(view('evidence', `of: [${ids.join(', ')}]`));
  expect(said(document)).toEqual([]);
  expect(figuresIn(document).length).toBeGreaterThan(20);
  expect(textOf(document)).not.toMatch(/NaN|undefined|Infinity|\[object/);
  for (const figure of figuresIn(document)) expect(figure.svg).not.toMatch(/NaN|undefined|Infinity|\[object/);
});

describe('one figure', () => {
  test('takes caption and anchor, and the text can refer to it', () => {
    const document = withDocument(
      `${view('figure', 'of: VR-09B\nfigure: histogram\ncaption: Retention\nanchor: retention')}\n\nSee [](#retention).`,
    );
    expect(said(document)).toEqual([]);
    expect(textOf(document)).toContain('Figure 1: Retention');
    expect(writeHtml(document.document)).toMatch(
      /<img src="data:image\/svg\+xml,[^"]+" alt="Histogram of 30 readings/,
    );
  });

  test('tells which figures and characteristics there are', () => {
    expect(said(withDocument(view('figure', 'of: VR-09A\nfigure: gauge-components')))[0]).toMatch(
      /^12:9 view-body-wrong: figure: the evidence of VR-09A has no figure "gauge-components" \| Use one of: histogram, probability-plot, run-chart\.$/,
    );
    expect(
      said(withDocument(view('figure', 'of: VR-09A\nfigure: histogram\ncharacteristic: colour')))[0],
    ).toContain('VR-09A has no characteristic "colour" | Use one of: tip retention force.');
    expect(said(withDocument(view('figure', 'of: VR-09C\nfigure: histogram')))[0]).toContain(
      'there is no record VR-09C | Did you mean VR-09',
    );
    expect(said(withDocument(view('figure', 'of: VR-09A\nfigure: pie')))[0]).toContain('expected one of');
    expect(said(withDocument(view('evidence', 'of: [VR-09A]\nfigures: [bias-plot]')))[0]).toContain(
      'has no figure "bias-plot"',
    );
  });
});

describe('gauge studies', () => {
  test('lists every test method with a study, who uses it, and no working unless asked', () => {
    const document = withDocument(view('gauge-study', 'caption: Studies'));
    const text = textOf(document);
    for (const id of ['TM-01', 'TM-02', 'TM-06', 'VP-01']) expect(text).toContain(id);
    expect(text).toContain('10 parts, 3 operators, 3 repeats');
    expect(figuresIn(document)).toEqual([]);
    expect(figuresIn(withDocument(view('gauge-study', 'of: [TM-01]'))).length).toBe(1);
  });

  test('other records are refused, test methods without a study are told', () => {
    expect(said(withDocument(view('gauge-study', 'of: [VR-09A]')))[0]).toContain(
      'VR-09A is not a test method',
    );
    expect(textOf(withDocument(view('gauge-study', 'of: [TM-04]')))).toContain('TM-04 has no study');
  });
});

import { describe, expect, test } from 'vitest';
import { countedRisks } from '../../src/evidence/counted-risks.ts';
import type { FieldSeries } from '../../src/evidence/field-experience.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom } from '../support/technical-file.ts';

interface Situation {
  readonly counts?: 'situation' | 'harm';
  readonly rows: readonly (readonly [uses: number, events: number])[];
  readonly after?: string;
  readonly severity?: string;
  readonly estimate?: 'before' | 'after';
  readonly which?: 'own' | 'comparable';
}

/** One risk, one column of counts, and what they say. */
const experienceOf = ({
  counts = 'harm',
  rows,
  after,
  severity = 'S4',
  estimate,
  which = 'own',
}: Situation): FieldSeries => {
  const files = new Map([
    [
      'plinth.yaml',
      'device: { name: Granule applicator, maker: Harrow Lane Instruments }\nrisk:\n  severities: [{ class: S2, name: minor }, { class: S4, name: serious }]\n  probability: { denominator: per use, bands: [{ band: O1, below: 0.00001 }, { band: O2, below: 0.001 }, { band: O3 }] }\n  acceptable: { S2: O3, S4: O1 }\n  not_estimable: { acceptable_up_to: S2, statement: Severity decides. }\n',
    ],
    [
      'RK-01.md',
      `---\nid: RK-01\ntype: risk\ntitle: A risk\nstatus: draft\nhazard: force\nsequence: It slips.\nhazardous_situation: A sharp part meets tissue.\nharm: a cut\nseverity: ${severity}\nbefore: { p1: 0.1, p2: 0.05 }\nafter: ${after ?? '{ p1: 0.0001, p2: 0.05 }'}\n---\nAn estimate.\n`,
    ],
    [
      'SP-01.md',
      '---\nid: SP-01\ntype: surveillance-plan\ntitle: A plan\nstatus: draft\ndate: 2026-01-01\nconfidence: 0.95\nsources: [{ source: complaints, informs: [RK-01] }]\n---\n## Responsibilities\nSomebody.\n',
    ],
    [
      'FD-01.md',
      `---\nid: FD-01\ntype: field-data\ntitle: Counts\nstatus: draft\nplan: SP-01\ndevice: { which: ${which} }\nperiod: { from: 2026-01-01, to: 2026-06-30 }\ndata:\n  file: FD-01.csv\n  sha256: "${'0'.repeat(64)}"\n  period: month\n  uses: uses\n  columns:\n    - { column: cuts, risk: RK-01, counts: ${counts}${estimate ? `, estimate: ${estimate}` : ''} }\n---\n## Assessment\nNone yet.\n`,
    ],
    [
      'FD-01.csv',
      `month,uses,cuts\n${rows.map(([uses, events], index) => `M${index + 1},${uses},${events}\n`).join('')}`,
    ],
  ]);
  const [only] = countedRisks(analyse(inputsFrom(files), []));
  if (!only) throw new Error('there are no counts');
  return only;
};

describe('counts against what is claimed', () => {
  // The band O1 ends at 1e-5. Without an event, the 95 % bound is 2.9957 / n: 299 573 uses are the turning point.
  test('without an event, the rule of three decides', () => {
    expect(experienceOf({ rows: [[299_574, 0]] }).outcome).toBe('supported');
    const few = experienceOf({ rows: [[299_573, 0]] });
    expect(few.outcome).toBe('not yet shown');
    expect(few.usesNeeded).toBe(299_574);
  });

  test('one event in few uses contradicts: its lower bound alone lies above the band', () => {
    // Lower 95 % bound of one event: 0.051293 / n (Garwood), above 1e-5 below 5 129 uses.
    expect(experienceOf({ rows: [[5_129, 1]] }).outcome).toBe('contradicted');
    expect(experienceOf({ rows: [[5_130, 1]] }).outcome).toBe('not yet shown');
  });

  test('situations are held against P1', () => {
    const found = experienceOf({ counts: 'situation', rows: [[100_000, 10]] });
    expect(found.claim).toEqual({ words: 'P1 0.0001', edge: 1e-4 });
    // 10 events: at most 16.96 (Hahn and Meeker, table of one-sided 95 % bounds; from memory), 1.7e-4 per use.
    expect(found.upper).toBeCloseTo(16.962e-5, 7);
    expect(found.outcome).toBe('not yet shown');
    expect(experienceOf({ counts: 'situation', rows: [[170_000, 10]] }).outcome).toBe('supported');
  });

  test('a P1 of zero is contradicted by one event, and no number of uses shows it', () => {
    const after = '{ p1: 0, p2: 0.05 }';
    const clean = experienceOf({ counts: 'situation', rows: [[100_000, 0]], after });
    expect(clean.outcome).toBe('not yet shown');
    expect(clean.usesNeeded).toBeUndefined();
    expect(experienceOf({ counts: 'situation', rows: [[100_000, 1]], after }).outcome).toBe('contradicted');
  });

  test('the estimate before control, where the column says so', () => {
    // P1 x P2 before control is 5e-3: the band without an upper end, which no count contradicts.
    const found = experienceOf({ rows: [[100, 50]], estimate: 'before', which: 'comparable' });
    expect(found.claim).toEqual({ words: 'band O3' });
    expect(found.outcome).toBe('supported');
  });

  test('where the probability cannot be estimated, counts support nothing', () => {
    const found = experienceOf({ rows: [[100_000, 0]], after: '{ not_estimable: Nobody knows. }' });
    expect(found.outcome).toBe('no estimate');
    expect(found.claim).toBeUndefined();
  });

  test('periods add up, and three of them have a trend', () => {
    const found = experienceOf({
      rows: [
        [1000, 0],
        [1000, 0],
        [1000, 3],
      ],
    });
    expect(found).toMatchObject({ events: 3, uses: 3000, rate: 0.001 });
    expect(found.trend?.pValue).toBeCloseTo(1 / 27, 12);
    expect(experienceOf({ rows: [[1000, 1]] }).trend).toBeUndefined();
  });
});

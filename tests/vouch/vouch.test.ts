import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyse } from '../../src/pipeline.ts';
import { drawSample } from '../../src/vouch/sample.ts';
import { type VouchReport, vouch } from '../../src/vouch/vouch.ts';
import { randomFile, randomFrom, textsOf } from '../change/random-file.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';

const demonstration = readTree('content');
const analysis = analyse(inputsFrom(demonstration));

const walk = (id: string, from = analysis): VouchReport => {
  const report = vouch(id, from);
  if (!report) throw new Error(`no ${id}`);
  return report;
};
const ids = (steps: VouchReport['up']): readonly string[] => steps.map((step) => step.id);

describe('the walk of an auditor', () => {
  test('goes from a design input down to the raw data and their digest, and up to need and risk', () => {
    const report = walk('DI-09');
    expect(ids(report.up)).toEqual(['RK-03', 'UN-08']);
    expect(ids(report.down)).toEqual(
      expect.arrayContaining([
        'VP-09',
        'VR-09',
        'VP-09A',
        'VR-09A',
        'VR-09B',
        'TM-03',
        'EQ-03',
        'DC-01',
        'DO-04',
      ]),
    );
    const last = report.readings.find((each) => each.record === 'VR-09B');
    const bytes = demonstration.get('verification/data/VR-09B.csv') ?? new Uint8Array();
    expect(last).toMatchObject({
      dataFile: 'verification/data/VR-09B.csv',
      dataDigest: createHash('sha256').update(bytes).digest('hex'),
      unit: 'N',
    });
    expect(last?.readings).toHaveLength(30);
    expect(report.breaks).toEqual([]);
  });

  test('goes from a result up to the needs and from a risk over its controls to the results', () => {
    expect(ids(walk('VR-09B').up)).toEqual(expect.arrayContaining(['VP-09A', 'DI-09', 'UN-08', 'RK-03']));
    expect(ids(walk('RK-03').down)).toEqual(expect.arrayContaining(['RC-05', 'DO-04', 'VP-09A', 'VR-09B']));
    expect(ids(walk('GR-14.1').down)).toEqual(expect.arrayContaining(['LR-01', 'VR-25']));
  });

  test('names the certificate that held over the work, the revision tested and what repeats what', () => {
    const facts = walk('DI-09').down.find((step) => step.id === 'VR-09B')?.facts ?? [];
    const said = (name: string) => facts.filter((each) => each.name === name).map((each) => each.value);
    expect(said('Equipment')[0]).toContain('certificate C-26-0104, 2026-05-14 to 2027-05-13');
    expect(said('Tested')).toEqual(['DO-04 revision B']);
    expect(said('Repeats')).toEqual(['VR-09A, because of DC-01']);
    expect(said('Verdict')[0]).toMatch(/^pass: /);
  });

  test('says where the chain does not hold', () => {
    const files = new Map<string, string | Uint8Array>(demonstration);
    files.delete('verification/VR-18.md');
    const text = new TextDecoder().decode(demonstration.get('design-outputs/DO-04.md'));
    files.set('design-outputs/DO-04.md', text.replace('plus: 0.05', 'plus: 0.09'));
    const faulty = analyse(inputsFrom(files));
    expect(walk('DI-18', faulty).breaks).toEqual(
      expect.arrayContaining([expect.stringMatching(/^DI-18 stands as planned/)]),
    );
    expect(walk('DI-09', faulty).breaks).toEqual(
      expect.arrayContaining([
        expect.stringMatching(/^DI-09 stands as in doubt/),
        expect.stringMatching(
          /^the approval of VP-09 by quality lead of \d{4}-\d\d-\d\d has lapsed: DO-04 changed$/,
        ),
      ]),
    );
  });

  test('every record of the demonstration file can be walked from, and no step comes twice', () => {
    for (const record of analysis.graph.records.values()) {
      const report = walk(record.id);
      const steps = ids([report.claim, ...report.down]);
      expect(new Set(steps).size).toBe(steps.length);
      for (const step of [...report.up, ...report.down])
        expect([record.id, ...ids(report.up), ...ids(report.down)]).toContain(step.from);
    }
  });

  test('on random files the walk down from a need holds every result that its standing rests on', () => {
    for (let seed = 0; seed < 40; seed += 1) {
      const random = analyse(inputsFrom(textsOf(randomFile(randomFrom(seed)))), []);
      for (const [id, standing] of random.standing) {
        const report = walk(id, random);
        expect(ids([report.claim, ...report.down])).toEqual(expect.arrayContaining([...standing.because]));
      }
    }
  });
});

describe('a sample', () => {
  const population = Array.from({ length: 40 }, (_, index) => `DI-${String(index + 1).padStart(2, '0')}`);

  test('is what a reader would draw with sha256sum', () => {
    const byHand = [...population]
      .sort((a, b) => {
        const rank = (id: string) => createHash('sha256').update(`audit ${id}`).digest('hex');
        return rank(a) < rank(b) ? -1 : 1;
      })
      .slice(0, 5)
      .sort();
    expect(drawSample(population, 5, 'audit').ids).toEqual(byHand);
  });

  test('does not depend on the order of the population, holds each record once, and all where few', () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray(population, { minLength: 1 }),
        fc.integer({ min: 1, max: 50 }),
        fc.string(),
        (some, size, seed) => {
          const sample = drawSample(some, size, seed);
          expect(sample).toEqual(drawSample([...some].reverse(), size, seed));
          expect(new Set(sample.ids).size).toBe(Math.min(size, some.length));
          expect(sample.population).toBe(some.length);
        },
      ),
      { seed: 3 },
    );
  });

  test('every record is drawn about as often as any other', () => {
    const counts = new Map(population.map((id) => [id, 0]));
    for (let seed = 0; seed < 2_000; seed += 1)
      for (const id of drawSample(population, 5, String(seed)).ids) counts.set(id, (counts.get(id) ?? 0) + 1);
    // Binomial with n = 2000 and p = 1/8: mean 250, standard deviation 14.8; five of them either way.
    for (const count of counts.values()) {
      expect(count).toBeGreaterThan(176);
      expect(count).toBeLessThan(324);
    }
  });
});

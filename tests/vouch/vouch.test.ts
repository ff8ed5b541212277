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
    expect(ids(report.up)).toEqual(expect.arrayContaining(['RK-03', 'UN-08', 'RC-05']));
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

  test('shows both ends of the raw data as they are written, with their lines and the number of rows', () => {
    const lines = new TextDecoder()
      .decode(demonstration.get('verification/data/VR-09B.csv'))
      .trimEnd()
      .split('\n')
      .map((line) => line.trim());
    const raw = walk('DI-09').rawData.find((each) => each.record === 'VR-09B');
    expect(raw).toMatchObject({ rows: lines.length - 1, statedDigest: raw?.digest });
    expect(raw?.columns.join(',')).toBe(lines[0]);
    expect([...(raw?.first ?? []), ...(raw?.last ?? [])]).toHaveLength(6);
    for (const { line, cells } of [...(raw?.first ?? []), ...(raw?.last ?? [])])
      expect(cells.join(',')).toBe(lines[line - 1]);
  });

  test('names the line of each record', () => {
    const { claim, up, down } = walk('UN-08');
    for (const { id, file, line } of [claim, ...up, ...down])
      expect(new TextDecoder().decode(demonstration.get(file)).split('\n')[line - 1]).toMatch(
        new RegExp(`^id: ["']?${id}`),
      );
  });

  test('goes from an output to the results of the tests on it, and from a result to what names it as evidence', () => {
    expect(ids(walk('DO-04').down)).toEqual(expect.arrayContaining(['VR-09A', 'VR-09B', 'RV-04']));
    expect(ids(walk('VR-25').up)).toEqual(expect.arrayContaining(['GR-23', 'DI-25', 'UN-13']));
    expect(ids(walk('VR-09A').down)).toContain('VR-09B');
    for (const { status } of walk('VR-25').up) expect(status).not.toBe('retired');
  });

  test('goes from a result up to the needs and from a risk over its controls to the results', () => {
    expect(ids(walk('VR-09B').up)).toEqual(expect.arrayContaining(['VP-09A', 'DI-09', 'UN-08', 'RK-03']));
    expect(ids(walk('RK-03').down)).toEqual(expect.arrayContaining(['RC-05', 'DO-04', 'VP-09A', 'VR-09B']));
    expect(ids(walk('GR-14').down)).toEqual(expect.arrayContaining(['LR-01', 'VR-25']));
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

  test('names as missing what is missing', () => {
    const files = new Map<string, string | Uint8Array>(demonstration);
    const edit = (path: string, change: (text: string) => string): void => {
      const before = new TextDecoder().decode(demonstration.get(path));
      const after = change(before);
      expect(after, path).not.toBe(before);
      files.set(path, after);
    };
    files.delete('verification/data/VR-10.csv');
    edit('verification/VR-09.md', (text) =>
      text
        .replace('tested:\n  - { output: DO-04, revision: A }\n', '')
        .replace('equipment: [EQ-03]\n', '')
        .replace(
          'result: pass\n',
          'exclusions:\n  - { unit: L003-10, reason: Grip slipped. }\nresult: pass\n',
        ),
    );
    edit('verification/data/VR-09B.csv', (text) => `${text.trimEnd()}\nL003-11,L003,50.00\n`);
    edit('equipment/EQ-03.md', (text) => text.replace('from: 2026-05-14', 'from: 2026-07-14'));
    edit('test-methods/TM-03.md', (text) => text.replace(/^study:\n(?: {2}.*\n)+/m, ''));
    const faulty = analyse(inputsFrom(files));
    const report = walk('UN-08', faulty);
    const said = (id: string, name: string) =>
      report.down
        .find((step) => step.id === id)
        ?.facts.filter((each) => each.name === name)
        .map((each) => each.value);
    expect(said('VR-10', 'Raw data')).toEqual(['the file is missing']);
    expect(said('VR-09', 'Tested')).toEqual(['no output named']);
    expect(said('VR-09', 'Equipment')).toEqual(['none named']);
    expect(said('VR-09', 'Excluded')).toEqual(['L003-10: Grip slipped. (no deviation named)']);
    expect(said('VR-09A', 'Equipment')?.[0]).toContain('no certificate covers 2026-06-02');
    expect(said('VR-09B', 'Raw data')?.[0]).toContain('VR-09B.csv, 31 rows');
    expect(said('VR-09B', 'Differs')?.[0]).toMatch(/^the record states [0-9a-f]{64}$/);
    expect(said('TM-03', 'Study')).toEqual(['none recorded as data']);
  });

  test('a draft that bears the claim breaks the chain, below and above; a draft that accompanies it does not', () => {
    const drafted = (path: string): VouchReport => {
      const files = new Map<string, string | Uint8Array>(demonstration);
      const text = new TextDecoder().decode(demonstration.get(path));
      files.set(path, text.replace('status: approved', 'status: draft'));
      return walk('DI-09', analyse(inputsFrom(files), []));
    };
    const says = (id: string) => `${id} is not approved: its status is draft`;
    expect(drafted('test-methods/TM-03.md').breaks).toContain(says('TM-03'));
    expect(drafted('user-needs/UN-08.md').breaks).toContain(says('UN-08'));
    expect(drafted('design-outputs/DO-04.md').breaks).toContain(says('DO-04'));
    expect(drafted('reviews/RV-03.md').breaks).toEqual([]);
    expect(drafted('changes/DC-01.md').breaks).toEqual([]);
  });

  describe('in a small file', () => {
    const record = (id: string, type: string, fields: string): readonly [string, string] => [
      `records/${id}.md`,
      `---\nid: ${id}\ntype: ${type}\ntitle: Trial\nstatus: draft\n${fields}\n---\nThe words\nof ${id}.\n\n## Rationale\nBecause.\n`,
    ];
    const small = analyse(
      inputsFrom(
        new Map([
          ['plinth.yaml', 'device: { name: Applicator, maker: Harrow Lane Instruments }\n'],
          record('UN-01', 'user-need', 'needed_by: [dental surgeon]'),
          record(
            'DI-01',
            'design-input',
            'derives_from: [UN-01]\nlimits:\n  - { characteristic: squeeze force, unit: N, upper: 25 }\nmethod: [test]',
          ),
          record(
            'DI-02',
            'design-input',
            'derives_from: []\nlimits:\n  - { characteristic: dose, unit: mm3, lower: 17.0, upper: 23.0 }\nmethod: [test]',
          ),
          record(
            'VP-02',
            'verification-protocol',
            'verifies: [DI-02]\nacceptance:\n  - { characteristic: dose, unit: mm3, lower: 17.0, upper: 23.0 }\nsampling: { kind: normal-tolerance-interval, confidence: 0.95, reliability: 0.95, size: 30, rationale: Trial. }',
          ),
        ]),
      ),
    );

    test('an input that nothing verifies is said to be shown by nothing', () => {
      expect(walk('DI-01', small).breaks).toEqual([
        expect.stringMatching(/^DI-01 stands as unplanned: /),
        'nothing measured or calculated shows DI-01 below this',
        'DI-01 is not approved: its status is draft',
        'UN-01 is not approved: its status is draft',
      ]);
      expect(walk('UN-01', small).breaks).toContainEqual(
        expect.stringMatching(/^nothing shows DI-01 below this: /),
      );
      expect(walk('DI-01', small).claim.facts[0]).toEqual({
        name: 'Statement',
        value: 'The words of DI-01.',
      });
    });

    test('a protocol that was not carried out is where the chain ends, and an input without a source hangs in the air', () => {
      expect(walk('DI-02', small).breaks).toEqual(
        expect.arrayContaining([
          expect.stringMatching(/^nothing shows VP-02 below this: /),
          'nothing lies above DI-02: it answers to no need, risk or requirement',
        ]),
      );
      expect(ids(walk('DI-02', small).down)).toEqual(['VP-02']);
    });
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

import { describe, expect, test } from 'vitest';
import { assessImpact, isWithoutImpact } from '../../src/change/impact.ts';
import { type Analysis, analyse } from '../../src/pipeline.ts';
import { inputsFrom } from '../support/technical-file.ts';
import {
  naiveChanged,
  naiveLabels,
  naiveLapse,
  naiveRequirements,
  naiveRisks,
  naiveStanding,
  naiveTests,
} from './naive-impact.ts';
import {
  type PlainFile,
  type PlainRecord,
  type Random,
  randomFile,
  randomFrom,
  sealData,
  sign,
  textsOf,
} from './random-file.ts';

const analysisOf = (file: PlainFile, layout: number): Analysis =>
  analyse(inputsFrom(textsOf(file, layout), '2026-06-01'));

const impactOf = (before: Analysis, after: Analysis) =>
  assessImpact({
    before,
    after,
    beforeName: { name: 'before' },
    afterName: { name: 'after' },
    textsBefore: new Map(),
    textsAfter: new Map(),
    unseen: [],
  });

const copyOf = (file: PlainFile): PlainFile =>
  new Map([...file].map(([id, record]) => [id, structuredClone(record)]));

const everyRecord = (file: PlainFile): PlainRecord[] => [...file.values()];

/** One edit as a person might make it. Says what was done, for the message of a failure. */
const edit = (file: PlainFile, random: Random): string => {
  const records = everyRecord(file);
  const record = random.pick(records);
  const of = (type: string): PlainRecord[] => records.filter((each) => each.type === type);
  switch (random.below(13)) {
    case 0:
      record.body = `${record.body}\nA further sentence ${random.below(100)}.\n`;
      return `body of ${record.id}`;
    case 1:
      record.fields['title'] = `Title ${random.below(1000)}`;
      return `title of ${record.id}`;
    case 2: {
      const input = random.pick(of('design-input'));
      input.fields['limits'] = [{ characteristic: 'pull force', unit: 'N', lower: 25 + random.below(12) }];
      return `limit of ${input.id}`;
    }
    case 3: {
      const protocol = random.pick(of('verification-protocol'));
      protocol.fields['acceptance'] = [
        { characteristic: 'pull force', unit: 'N', lower: 28 + random.below(25) },
      ];
      return `acceptance of ${protocol.id}`;
    }
    case 4: {
      const output = random.pick(of('design-output'));
      output.fields['characteristics'] = [
        { name: 'wall', nominal: 1.2, plus: random.below(9) / 10, minus: 0.1, unit: 'mm' },
      ];
      return `tolerance of ${output.id}`;
    }
    case 5:
      record.status = record.status === 'retired' ? 'approved' : 'retired';
      return `${record.status} ${record.id}`;
    case 6:
      record.status = random.pick(['draft', 'in review', 'approved']);
      return `status ${record.status} of ${record.id}`;
    case 7:
      sign(file, record, `2026-04-${String(1 + random.below(28)).padStart(2, '0')}`);
      return `approval of ${record.id}`;
    case 8: {
      const result = of('verification-record')[0];
      if (!result?.readings) return 'nothing';
      result.readings = result.readings.map((value) => value - random.below(4) * 5);
      if (random.chance(0.5)) sealData(result);
      return `data of ${result.id}`;
    }
    case 9: {
      // Leaf records only: what others name may go too, but then nothing else of the file is sound.
      file.delete(record.id);
      return `removal of ${record.id}`;
    }
    case 10: {
      const id = `RC-${10 + random.below(80)}`;
      const risks = of('risk');
      const protocols = of('verification-protocol');
      if (file.has(id) || risks.length === 0 || protocols.length === 0) return 'nothing';
      file.set(id, {
        id,
        type: 'risk-control',
        status: 'approved',
        fields: {
          title: `Control ${id}`,
          controls: random.some(
            risks.map((each) => each.id),
            2,
          ),
          option: 'protective measure',
          shown_by: random.some(
            protocols.map((each) => each.id),
            1,
          ),
        },
        body: '',
        approvals: [],
      });
      return `new ${id}`;
    }
    case 11: {
      const control = of('risk-control')[0];
      const risks = of('risk').map((each) => each.id);
      if (!control || risks.length === 0) return 'nothing';
      control.fields['controls'] = random.some(risks, 2);
      return `links of ${control.id}`;
    }
    default: {
      const approval = record.approvals.at(-1);
      if (approval) approval.meaning = 'approved once more';
      return `words of an approval of ${record.id}`;
    }
  }
};

/** More on demand: PLINTH_RUNS=2000. */
const runs = Number(process.env['PLINTH_RUNS'] ?? 100);

describe('impact, lapses and standing against a second implementation', () => {
  const seen = {
    files: 0,
    edits: 0,
    lapsed: 0,
    repeat: 0,
    argue: 0,
    risks: 0,
    requirements: 0,
    labels: 0,
    standing: new Set<string>(),
  };

  test(`agree over ${runs} files with random sequences of edits`, () => {
    for (let run = 0; run < runs; run += 1) {
      const random = randomFrom(20261125 + run);
      const first = randomFile(random);
      const then = copyOf(first);
      const edits = Array.from({ length: 1 + random.below(5) }, () =>
        then.size > 3 ? edit(then, random) : 'nothing',
      );
      const before = analysisOf(first, run);
      const after = analysisOf(then, run + 1);
      const why = `run ${run}: ${edits.join('; ')}`;
      expect(after.unsound, why).toBe(0);
      const impact = impactOf(before, after);
      const verdictBefore = (id: string) => before.evidence.get(id)?.verdict;
      const verdictAfter = (id: string) => after.evidence.get(id)?.verdict;

      const errors = new Set(
        after.findings.filter((finding) => finding.level === 'error').map((finding) => finding.records[0]),
      );
      const standing = naiveStanding(then, verdictAfter, (id) => errors.has(id));
      expect(new Map([...after.standing].map(([id, { state }]) => [id, state])), why).toEqual(
        new Map([...standing].sort(([a], [b]) => (a < b ? -1 : 1))),
      );
      for (const each of after.standing.values()) {
        seen.standing.add(each.state);
        expect(each.because.length, why).toBeGreaterThan(0);
      }

      expect(
        new Set(
          impact.records.filter((each) => each.kind !== 'added' && each.isNormative).map((each) => each.id),
        ),
        why,
      ).toEqual(
        new Set(
          [...naiveChanged(first, then)].filter((id) => {
            const now = then.get(id);
            const old = first.get(id);
            return (
              !now ||
              !old ||
              JSON.stringify([old.fields, old.body.trim()]) !== JSON.stringify([now.fields, now.body.trim()])
            );
          }),
        ),
      );

      const lapsed = new Map(
        everyRecord(then)
          .filter((record) => record.status !== 'retired')
          .flatMap((record) => {
            const because = naiveLapse(then, record);
            return because ? [[record.id, because] as const] : [];
          }),
      );
      expect(new Map(impact.approvals.map((each) => [each.id, [...each.because].sort()])), why).toEqual(
        lapsed,
      );
      for (const each of impact.approvals) expect(each.isNew, why).toBe(true);

      const tests = naiveTests(first, then, verdictBefore, verdictAfter);
      expect(new Map(impact.tests.map((each) => [each.id, each.action])), why).toEqual(
        new Map([...tests].map(([id, { action }]) => [id, action])),
      );
      for (const each of impact.tests)
        expect(
          [
            ...new Set(
              each.reasons.flatMap(({ path }) =>
                naiveChanged(first, then).has(path.at(-1) ?? '') ? [path.at(-1)] : [],
              ),
            ),
          ].sort(),
          `${why}, causes of ${each.id}`,
        ).toEqual(tests.get(each.id)?.causes);
      expect(impact.risks.map((each) => each.id).sort(), why).toEqual(naiveRisks(first, then, tests));
      expect(impact.requirements.map((each) => each.id).sort(), why).toEqual(
        naiveRequirements(first, then, tests),
      );
      expect(impact.labels.map((each) => each.id).sort(), why).toEqual(naiveLabels(first, then));

      seen.files += 1;
      seen.edits += edits.length;
      seen.lapsed += lapsed.size;
      seen.repeat += impact.tests.filter((each) => each.action === 'repeat').length;
      seen.argue += impact.tests.filter((each) => each.action === 're-argue').length;
      seen.risks += impact.risks.length;
      seen.requirements += impact.requirements.length;
      seen.labels += impact.labels.length;
    }
  }, 1_200_000);

  test('had enough to disagree about', () => {
    expect([...seen.standing].sort()).toEqual(['failed', 'in doubt', 'passed', 'planned', 'unplanned']);
    const { standing: _, files, ...counts } = seen;
    expect(files).toBe(runs);
    for (const [name, count] of Object.entries(counts)) expect(count, name).toBeGreaterThan(20);
  });
});

test('another layout of the same content has no impact', () => {
  const file = randomFile(randomFrom(7));
  for (const layout of [1, 2, 3, 6, 8])
    expect(isWithoutImpact(impactOf(analysisOf(file, 0), analysisOf(file, layout))), `layout ${layout}`).toBe(
      true,
    );
});

import { describe, expect, test } from 'vitest';
import { runChecks } from '../../src/checks/check.ts';
import { plannedAgeingTooShort } from '../../src/checks/planned-ageing-too-short.ts';
import { shelfLifeBeyondEvidence } from '../../src/checks/shelf-life-beyond-evidence.ts';
import {
  limitForMass,
  limitsForContact,
  residueLimits,
} from '../../src/evidence/calculations/ethylene-oxide-limits.ts';
import { plannedAgeing } from '../../src/evidence/conditioning-tree.ts';
import { analyse } from '../../src/pipeline.ts';
import { gs1CheckDigit, gtinProblem } from '../../src/records/gs1.ts';
import { gatherClauseTables } from '../../src/regulation/clause-tables.ts';
import { labelSymbols } from '../../src/regulation/label-symbols.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';

/**
 * Facts of the trade on labels, identifiers, ageing, residues, endotoxin and packaging, each with how it is known:
 * `law` was read in the law or in the abstract of the standard, `public` in a public secondary source, `computed` follows by
 * arithmetic, `memory` has been compared with nothing. What Plinth holds has to agree with them.
 */
interface Fact {
  readonly fact: string;
  readonly known: 'law' | 'public' | 'computed' | 'memory';
  readonly source: string;
  readonly expected: number | string;
  readonly held: () => number | string | undefined;
}

const demo = analyse(inputsFrom(readTree('content')), []);

const points = (clause: string): number =>
  (gatherClauseTables().inUse('eu-mdr-annex-1')?.rows ?? []).filter((row) =>
    row.clause.startsWith(`${clause}(`),
  ).length;

const residue = (substance: string, period: string): number | undefined =>
  residueLimits.find((each) => each.substance === substance && each.period === period)?.limit;

const factor = (temperature: number, reference: number): number | undefined =>
  plannedAgeing({ q10: 2, temperature, reference_temperature: reference, days: 1 })?.factor;

/** Findings on a plan that ages for a number of days against a claim. */
const faults = (claim: string, temperature: number, reference: number, days: number): number => {
  const files = new Map([
    ['plinth.yaml', 'device: { name: Test device, maker: Harrow Lane Instruments }\n'],
    [
      'CP-01.md',
      `---\nid: CP-01\ntype: conditioning-plan\ntitle: Plan\nstatus: draft\nclaim: ${claim}\nlots: [{ lot: L1, units: 9 }]\nnodes:\n  - node: aged\n    step: accelerated ageing\n    units: 9\n    ageing: { q10: 2, temperature: ${temperature}, reference_temperature: ${reference}, days: ${days} }\ndraws: [{ protocol: VP-01, node: aged, units: 9 }]\n---\n`,
    ],
  ]);
  return runChecks([plannedAgeingTooShort], analyse(inputsFrom(files), [])).findings.length;
};

/** The fewest whole days that the check accepts. */
const fewestDays = (claim: string, temperature: number, reference: number): number => {
  let [low, high] = [1, 4000];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (faults(claim, temperature, reference, middle) === 0) high = middle;
    else low = middle + 1;
  }
  return low;
};

const limitOf = (id: string, characteristic: string): number | undefined =>
  demo.graph
    .recordOf('design-input', id)
    ?.fields.limits.find((limit) => limit.characteristic.includes(characteristic))?.upper;

const criterionOf = (id: string, words: string): string | undefined =>
  demo.graph.recordOf('design-input', id)?.fields.limits.find((limit) => limit.criterion?.includes(words))
    ?.criterion;

const iso10993 = 'ISO 10993-7:2008, 4.3';

const facts: readonly Fact[] = [
  {
    fact: 'particulars of the label, (a) to (s)',
    known: 'law',
    source: 'Regulation (EU) 2017/745 Annex I 23.2',
    expected: 19,
    held: () => points('23.2'),
  },
  {
    fact: 'particulars of sterile packaging, (a) to (j)',
    known: 'law',
    source: 'Regulation (EU) 2017/745 Annex I 23.3',
    expected: 10,
    held: () => points('23.3'),
  },
  {
    fact: 'particulars of the instructions, (a) to (ab)',
    known: 'law',
    source: 'Regulation (EU) 2017/745 Annex I 23.4',
    expected: 28,
    held: () => points('23.4'),
  },
  {
    fact: 'month and year of manufacture on sterile packaging',
    known: 'law',
    source: 'Regulation (EU) 2017/745 Annex I 23.3(h)',
    expected: '23.3(h)',
    held: () =>
      [...labelSymbols.values()]
        .find(({ reference }) => reference === '5.1.3')
        ?.answers.find((clause) => clause === '23.3(h)'),
  },
  {
    fact: 'the use-by date answers 23.2(i)',
    known: 'law',
    source: 'Regulation (EU) 2017/745 Annex I 23.2(i)',
    expected: '23.2(i)',
    held: () =>
      [...labelSymbols.values()]
        .find(({ reference }) => reference === '5.1.4')
        ?.answers.find((clause) => clause === '23.2(i)'),
  },
  {
    fact: 'check digit of 0952012345678',
    known: 'computed',
    source: 'GS1 General Specifications 7.9, modulo 10 with weights 3 and 1',
    expected: 8,
    held: () => gs1CheckDigit('0952012345678'),
  },
  {
    fact: 'ageing factor, 55 °C against 25 °C, Q10 2',
    known: 'computed',
    source: 'Q10^((Taa - Trt) / 10)',
    expected: 8,
    held: () => factor(55, 25),
  },
  {
    fact: 'ageing factor, 55 °C against 23 °C',
    known: 'public',
    source: 'table of a public calculator: 9.190',
    expected: '9.190',
    held: () => factor(55, 23)?.toFixed(3),
  },
  {
    fact: 'ageing factor, 55 °C against 22 °C',
    known: 'public',
    source: 'page of a package testing laboratory (lso-inc.com): 9.85',
    expected: '9.85',
    held: () => factor(55, 22)?.toFixed(2),
  },
  {
    fact: 'ageing factor, 60 °C against 25 °C',
    known: 'computed',
    source: 'the same formula',
    expected: '11.3137',
    held: () => factor(60, 25)?.toFixed(4),
  },
  {
    fact: 'days for 1 year at 55 °C, kept at 25 °C',
    known: 'computed',
    source: '365 / 8 = 45.63',
    expected: 46,
    held: () => fewestDays('1 year', 55, 25),
  },
  {
    fact: 'days for 3 years at 55 °C, kept at 25 °C',
    known: 'computed',
    source: '1095 / 8 = 136.88',
    expected: 137,
    held: () => fewestDays('3 years', 55, 25),
  },
  {
    fact: 'EO, limited contact, first day, mg',
    known: 'public',
    source: `${iso10993}, quoted in a forum`,
    expected: 4,
    held: () => residue('ethylene oxide', 'first day'),
  },
  {
    fact: 'EO, first 30 days, mg',
    known: 'public',
    source: `${iso10993}, quoted in a forum`,
    expected: 60,
    held: () => residue('ethylene oxide', 'first 30 days'),
  },
  {
    fact: 'EO, lifetime, mg',
    known: 'public',
    source: `${iso10993}, quoted in a forum: 2.5 g`,
    expected: 2500,
    held: () => residue('ethylene oxide', 'lifetime'),
  },
  {
    fact: 'EO, tolerable contact limit, µg/cm²',
    known: 'public',
    source: `${iso10993}, quoted in a forum`,
    expected: 10,
    held: () => residue('ethylene oxide', 'surface'),
  },
  {
    fact: 'ECH, limited contact, first day, mg',
    known: 'memory',
    source: iso10993,
    expected: 9,
    held: () => residue('ethylene chlorohydrin', 'first day'),
  },
  {
    fact: 'ECH, first 30 days, mg',
    known: 'memory',
    source: iso10993,
    expected: 60,
    held: () => residue('ethylene chlorohydrin', 'first 30 days'),
  },
  {
    fact: 'ECH, lifetime, mg',
    known: 'memory',
    source: `${iso10993}: 10 g`,
    expected: 10_000,
    held: () => residue('ethylene chlorohydrin', 'lifetime'),
  },
  {
    fact: 'ECH, tolerable contact limit, µg/cm²',
    known: 'memory',
    source: `${iso10993}: 5 mg/cm²`,
    expected: 5000,
    held: () => residue('ethylene chlorohydrin', 'surface'),
  },
  {
    fact: 'body mass behind the limits, kg: at half of it, half of the limit',
    known: 'public',
    source: 'forum quotation on ISO 10993-7:2008/Amd 1:2019: 70 kg',
    expected: 2,
    held: () => {
      const [first] = residueLimits;
      return first && limitForMass(first, 35);
    },
  },
  {
    fact: 'endotoxin of a device, EU',
    known: 'public',
    source: 'USP 32 chapter 161: not more than 20.0 EU per device',
    expected: 20,
    held: () => limitOf('DI-16', 'endotoxin'),
  },
  {
    fact: 'sterility assurance level for the word sterile',
    known: 'memory',
    source: 'EN 556-1',
    expected: 1e-6,
    held: () => demo.graph.recordOf('analysis', 'AN-14')?.fields.acceptance?.[0]?.upper,
  },
  {
    fact: 'spores on an indicator of an overkill half cycle',
    known: 'public',
    source: 'public guideline on sterilisation; ISO 11135 annex B from memory',
    expected: 1e6,
    held: () => {
      const calculation: Readonly<Record<string, unknown>> =
        demo.graph.recordOf('analysis', 'AN-14')?.fields.calculation ?? {};
      return Number(calculation['population']);
    },
  },
  {
    fact: 'channel that dye penetration shows, µm',
    known: 'public',
    source: 'pages of test laboratories on ASTM F1929',
    expected: '50',
    held: () => /(\d+) µm/.exec(criterionOf('DI-20', 'dye') ?? '')?.[1],
  },
  {
    fact: 'hole that the bubble test shows, µm',
    known: 'law',
    source: 'ASTM F2096-11, abstract: 250 µm with a probability of 81 %',
    expected: '250',
    held: () => /(\d+) µm/.exec(criterionOf('DI-20', 'pressure') ?? '')?.[1],
  },
];

describe('facts of the trade', () => {
  test.each(facts.map((each) => [`${each.fact} (${each.known}: ${each.source})`, each] as const))(
    '%s',
    (_, { expected, held }) => {
      expect(held()).toBe(expected);
    },
  );

  test('a GTIN that ends in another digit is told of', () => {
    expect(gtinProblem('09520123456788', [14])).toBeUndefined();
    expect(gtinProblem('09520123456787', [14])).toMatchObject({ written: 7, computed: 8 });
  });

  test('a limit counts for all longer contacts too', () => {
    expect(limitsForContact('limited').length).toBe(4);
    expect(limitsForContact('permanent').length).toBe(residueLimits.length);
  });
});

/**
 * Days in the chamber for a claim, kept at 23 °C with Q10 2, as the table of a public calculator prints them (ambient 23 °C,
 * "Common Shelf Life Test Durations", read in November 2026).
 */
test.each([
  ['1 year', 50, 57],
  ['2 years', 50, 113],
  ['3 years', 50, 169],
  ['5 years', 50, 281],
  ['1 year', 55, 40],
  ['2 years', 55, 80],
  ['3 years', 55, 120],
  ['5 years', 55, 199],
  ['1 year', 60, 29],
  ['3 years', 60, 85],
  ['5 years', 60, 141],
])('%s at %i °C against 23 °C: %i d in the chamber', (claim, temperature, days) => {
  expect(fewestDays(claim, temperature, 23)).toBe(days);
});

/** Real time that days at 55 °C stand for, kept at 22 °C with Q10 2: table of a package testing laboratory (lso-inc.com, read in November 2026). */
test.each([
  [7, 69],
  [14, 138],
  [30, 295],
  [60, 591],
  [90, 886],
  [180, 1773],
  [365, 3595],
])('%i d at 55 °C stand for %i d at 22 °C', (days, realTime) => {
  const planned = plannedAgeing({ q10: 2, temperature: 55, reference_temperature: 22, days });
  expect(Math.round(planned?.represents ?? 0)).toBe(realTime);
});

test('the demonstration device: 120 d at 55 °C stand for 960 d, which is less than 3 years (fault F8)', () => {
  const planned = plannedAgeing({ q10: 2, temperature: 55, reference_temperature: 25, days: 120 });
  expect(planned?.represents).toBe(960);
  expect(runChecks([shelfLifeBeyondEvidence], demo).findings).toEqual([]);
});

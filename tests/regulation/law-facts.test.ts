import { describe, expect, test } from 'vitest';
import {
  classificationRules,
  classRank,
  conformityRoute,
  deviceClasses,
  termOfUse,
} from '../../src/regulation/classification-rules.ts';
import { gatherClauseTables } from '../../src/regulation/clause-tables.ts';
import { outdatedCitations, outdatedSince } from '../../src/regulation/outdated-citations.ts';
import { outdatedMentions } from '../../src/regulation/outdated-terms.ts';

/**
 * A fact of law or of a standard, and what the project makes of it.
 *
 * Provenance: `seen` in the text of the law or in the abstract of the standard; `secondary` in a public text that quotes
 * or tells it; `memory` nowhere, so that no error rests on it.
 */
interface Fact {
  readonly fact: string;
  readonly value: unknown;
  readonly source: string;
  readonly provenance: 'seen' | 'secondary' | 'memory';
  readonly found: () => unknown;
}

const tables = gatherClauseTables();
const rows = (key: string) => tables.inUse(key)?.rows ?? [];
const below = (key: string, parent: string): number =>
  rows(key).filter((row) => row.parent === parent).length;
const titleOf = (key: string, clause: string): string => tables.inUse(key)?.byClause.get(clause)?.title ?? '';
const classesOf = (rule: number): readonly string[] => classificationRules.get(rule)?.classes ?? [];
const route = (...asked: Parameters<typeof conformityRoute>): string | undefined =>
  conformityRoute(...asked)?.article;
const insteadOf = (text: string, day = '2026-02-02'): string | undefined =>
  outdatedMentions(text, day)[0]?.term.instead;

const mdr = 'Regulation (EU) 2017/745, OJ L 117, 5.5.2017';

const facts: readonly Fact[] = [
  {
    fact: 'particulars of the label, (a) to (s)',
    value: 19,
    source: `${mdr}, Annex I 23.2`,
    provenance: 'seen',
    found: () => below('eu-mdr-annex-1', '23.2'),
  },
  {
    fact: 'particulars of the sterile packaging, (a) to (j)',
    value: 10,
    source: `${mdr}, Annex I 23.3`,
    provenance: 'seen',
    found: () => below('eu-mdr-annex-1', '23.3'),
  },
  {
    fact: 'particulars of the instructions for use, (a) to (ab)',
    value: 28,
    source: `${mdr}, Annex I 23.4`,
    provenance: 'seen',
    found: () => below('eu-mdr-annex-1', '23.4'),
  },
  {
    fact: 'the threshold for CMR and endocrine-disrupting substances is 0.1 % by weight',
    value: true,
    source: `${mdr}, Annex I 10.4.1`,
    provenance: 'seen',
    found: () => titleOf('eu-mdr-annex-1', '10.4.1').includes('0.1 % w/w'),
  },
  {
    fact: 'month and year of manufacture are asked for on the sterile packaging',
    value: true,
    source: `${mdr}, Annex I 23.3(h)`,
    provenance: 'seen',
    found: () => /month and year of manufacture/i.test(titleOf('eu-mdr-annex-1', '23.3(h)')),
  },
  {
    fact: 'the law asks for complete protocols of tests',
    value: true,
    source: `${mdr}, Annex II 6.1(b)`,
    provenance: 'seen',
    found: () => /protocol/i.test(titleOf('eu-mdr-annex-2', '6.1(b)')),
  },
  {
    fact: 'use of less than 60 minutes is transient',
    value: ['transient', 'short term'],
    source: `${mdr}, Annex VIII 1.1`,
    provenance: 'seen',
    found: () => [termOfUse(59.99), termOfUse(60)],
  },
  {
    fact: 'use of up to 30 days is short term',
    value: ['short term', 'long term'],
    source: `${mdr}, Annex VIII 1.2 and 1.3`,
    provenance: 'seen',
    found: () => [termOfUse(30 * 1440), termOfUse(30 * 1440 + 1)],
  },
  {
    fact: 'number of classification rules',
    value: 22,
    source: `${mdr}, Annex VIII (total from memory at first, then matched)`,
    provenance: 'memory',
    found: () => classificationRules.size,
  },
  {
    fact: 'order of the classes',
    value: [0, 1, 2, 3],
    source: `${mdr}, Article 51(1)`,
    provenance: 'seen',
    found: () => deviceClasses.map(classRank),
  },
  {
    fact: 'rule 6 can give every class: reusable surgical instruments are in class I',
    value: ['I', 'IIa', 'IIb', 'III'],
    source: `${mdr}, Annex VIII 5.2`,
    provenance: 'seen',
    found: () => classesOf(6),
  },
  {
    fact: 'rule 5 gives class I for transient use in body orifices, and at most IIb',
    value: ['I', 'IIa', 'IIb'],
    source: `${mdr}, Annex VIII 5.1`,
    provenance: 'seen',
    found: () => classesOf(5),
  },
  {
    fact: 'route of class IIa',
    value: '52(6)',
    source: `${mdr}, Article 52(6)`,
    provenance: 'seen',
    found: () => route('IIa', false),
  },
  {
    fact: 'the quality system of class IIa is assessed by Annex IX chapters I and III',
    value: true,
    source: `${mdr}, Article 52(6)`,
    provenance: 'seen',
    found: () => conformityRoute('IIa', false)?.procedures.includes('Annex IX chapters I and III'),
  },
  {
    fact: 'a sterile device of class I needs a notified body for the sterile condition only',
    value: ['52(7)', 'limited'],
    source: `${mdr}, Article 52(7)`,
    provenance: 'seen',
    found: () => [route('I', true), conformityRoute('I', true)?.notified_body],
  },
  {
    fact: 'routes of classes IIb and III',
    value: ['52(4)', '52(3)'],
    source: `${mdr}, Article 52(3) and (4)`,
    provenance: 'seen',
    found: () => [route('IIb', false), route('III', false)],
  },
  {
    fact: 'items of a declaration of conformity',
    value: 10,
    source: `${mdr}, Annex IV`,
    provenance: 'seen',
    found: () => rows('eu-mdr-annex-4').length,
  },
  {
    fact: 'the Quality Management System Regulation has been in force since',
    value: '2026-02-02',
    source: '89 FR 7496; 21 CFR 820',
    provenance: 'seen',
    found: () => outdatedSince,
  },
  {
    fact: 'sections of part 820 that are left',
    value: [],
    source: '21 CFR 820 as amended: 820.1, 820.3, 820.7, 820.10, 820.35, 820.45',
    provenance: 'seen',
    found: () => outdatedCitations('21 CFR 820.1, 820.3, 820.7, 820.10(c), 820.35(a) and 820.45'),
  },
  {
    fact: 'sections of the old part 820 that lead nowhere',
    value: ['820.30', '820.70', '820.180', '820.198'],
    source: '21 CFR 820 as amended by 89 FR 7496',
    provenance: 'seen',
    found: () =>
      outdatedCitations('21 CFR 820.30(g), 820.70(i), 820.180 and 820.198').map((each) => each.section),
  },
  {
    fact: 'items of a complaint record',
    value: 7,
    source: '21 CFR 820.35(a)(1) to (7)',
    provenance: 'seen',
    found: () => below('us-cfr-820', '820.35(a)'),
  },
  {
    fact: 'items of the examination of labels before release',
    value: 5,
    source: '21 CFR 820.45(a)(1) to (5)',
    provenance: 'secondary',
    found: () => below('us-cfr-820', '820.45(a)'),
  },
  {
    fact: 'the design history file became the design and development file',
    value: 'design and development file (ISO 13485:2016 7.3.10)',
    source: 'preamble of 89 FR 7496, as quoted in public summaries',
    provenance: 'secondary',
    found: () => insteadOf('The design history file holds it.'),
  },
  {
    fact: 'the device master record became the medical device file',
    value: 'medical device file (ISO 13485:2016 4.2.3)',
    source: 'preamble of 89 FR 7496, as quoted in public summaries',
    provenance: 'secondary',
    found: () => insteadOf('See the device master record.'),
  },
  {
    fact: 'the device history record became the batch record',
    value: 'batch record (ISO 13485:2016 7.5.1)',
    source: 'preamble of 89 FR 7496, as quoted in public summaries',
    provenance: 'secondary',
    found: () => insteadOf('It is in the DHR.'),
  },
  {
    fact: 'nobody asks that records of the time before be rewritten',
    value: undefined,
    source: 'preamble of 89 FR 7496, as quoted in public summaries',
    provenance: 'secondary',
    found: () => insteadOf('The design history file holds it.', '2026-02-01'),
  },
  {
    fact: 'ISO 13485:2016 7.3 has sub-clauses 7.3.1 to 7.3.10',
    value: 10,
    source: 'ISO 13485:2016, public extracts',
    provenance: 'secondary',
    found: () => below('iso-13485', '7.3'),
  },
  {
    fact: 'contents of a medical device file, (a) to (f)',
    value: 6,
    source: 'ISO 13485:2016 4.2.3, public extracts',
    provenance: 'secondary',
    found: () => below('iso-13485', '4.2.3'),
  },
  {
    fact: 'contents of a risk management plan, (a) to (g)',
    value: 7,
    source: 'ISO 14971:2019 4.4, public extracts',
    provenance: 'secondary',
    found: () => below('iso-14971', '4.4'),
  },
  {
    fact: 'the table of contents for submissions, edition 3',
    value: ['2019-03-21', 7],
    source: 'IMDRF/RPS WG/N9 (Edition 3) FINAL:2019, title page; chapters 1 to 5, 6A, 6B',
    provenance: 'seen',
    found: () => [
      tables.inUse('imdrf-nivd-toc')?.edition,
      rows('imdrf-nivd-toc').filter((row) => row.parent === undefined).length,
    ],
  },
];

describe('facts of law and standards', () => {
  test.each(facts.map((each) => [`${each.fact} (${each.provenance}: ${each.source})`, each] as const))(
    '%s',
    (_, { found, value }) => expect(found()).toEqual(value),
  );

  test('at least twenty were seen or told by others, each with its source', () => {
    expect(facts.filter((each) => each.provenance !== 'memory').length).toBeGreaterThanOrEqual(20);
    for (const each of facts) expect(each.source.length).toBeGreaterThan(10);
  });
});

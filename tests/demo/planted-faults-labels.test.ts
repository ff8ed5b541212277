import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings/finding.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { replace, type SingleFault } from './planted-faults.ts';
import { seal, type Tree } from './seal.ts';

const label = 'design-outputs/DO-08.md';
const evaluation = 'biology/BE-01.md';
const conditioning = 'conditioning/CP-01.md';
const brochure = 'documents/DOC-28.md';

const faults: readonly SingleFault[] = [
  {
    planted: 'the lot in the UDI is that of another batch',
    code: 'udi-differs-from-label',
    record: 'DO-08',
    says: 'the lot L003, and L004 is printed',
    plant: (tree) => replace(tree, label, /^(udi: .*)L004$/m, '$1L003'),
  },
  {
    planted: 'the UDI of the carton stands on the unit',
    code: 'udi-differs-from-label',
    record: 'DO-08',
    says: 'the level "unit" has 09520123456788',
    plant: (tree) => replace(tree, label, 'udi: (01)09520123456788', 'udi: (01)19520123456785'),
  },
  {
    planted: 'a blank has got into the lot of the UDI',
    code: 'udi-structure-wrong',
    record: 'DO-08',
    says: 'a lot (10) with a blank',
    plant: (tree) => {
      replace(tree, label, /L004/g, 'L 004');
    },
  },
  {
    planted: 'the use-by date of the label is a year too late, everywhere on it',
    code: 'use-by-differs-from-shelf-life',
    record: 'DO-08',
    says: '364 d after the end of 3 years',
    plant: (tree) => {
      replace(tree, label, /2029-05-31/g, '2030-05-31');
      replace(tree, label, /\(17\)290531/g, '(17)300531');
    },
  },
  {
    planted: 'the lot in the words of a particular is that of another batch',
    code: 'particular-differs-from-label',
    record: 'DO-08',
    says: 'the lot L009, and the identification has L004',
    plant: (tree) => replace(tree, label, 'LOT symbol with L004', 'LOT symbol with L009'),
  },
  {
    planted: 'a digit of the printed device identifier is exchanged',
    code: 'particular-differs-from-label',
    record: 'DO-08',
    says: '23.2(h) has the device identifier 09520123456787, and the UDI has 09520123456788',
    plant: (tree) => replace(tree, label, 'text (01)09520123456788', 'text (01)09520123456787'),
  },
  {
    planted: 'the use-by date in the words of a particular is a year too late',
    code: 'particular-differs-from-label',
    record: 'DO-08',
    says: '23.2(i) has the use-by date 2030-05-31',
    plant: (tree) =>
      replace(
        tree,
        label,
        '23.2(i)\n    content: Use-by symbol with 2029',
        '23.2(i)\n    content: Use-by symbol with 2030',
      ),
  },
  {
    planted: 'the use-by date in the UDI names a month only',
    code: 'gs1-day-missing',
    record: 'DO-08',
    says: '(17) 290500 with the day 00',
    plant: (tree) => replace(tree, label, /\(17\)290531/g, '(17)290500'),
  },
  {
    planted: 'the symbol of irradiation stands on what ethylene oxide sterilises',
    code: 'sterile-symbol-differs',
    record: 'DO-08',
    says: 'stands for irradiation, and the process DO-12 "Ethylene oxide process" for ethylene oxide',
    plant: (tree) => replace(tree, label, 'symbol: 5.2.3', 'symbol: 5.2.4'),
  },
  {
    planted: 'the words say STERILE R',
    code: 'sterile-symbol-differs',
    record: 'DO-08',
    says: 'the particular 23.2(l) stands for irradiation',
    plant: (tree) => replace(tree, label, 'STERILE EO symbol', 'STERILE R symbol'),
  },
  {
    planted: 'the symbol of a double barrier stands on a single one',
    code: 'sterile-symbol-differs',
    record: 'DO-08',
    says: 'stands for single sterile barrier, and the symbol 5.2.12',
    plant: (tree) => replace(tree, label, 'symbol: 5.2.11', 'symbol: 5.2.12'),
  },
  {
    planted: 'the tip is said to have prolonged contact',
    code: 'contact-duration-differs',
    record: 'BE-01',
    says: 'is prolonged; MT-04 states "limited, not over 24 h; under 60 min in use"; CL-01 states a longest use of 45 min',
    plant: (tree) => replace(tree, evaluation, 'duration: limited', 'duration: prolonged'),
    also: ['biological-endpoint-open'],
  },
  {
    planted: 'the temperature symbol allows 5 °C',
    code: 'label-symbol-value-differs',
    record: 'DO-08',
    says: 'the wording "storage" has 10 to 30',
    plant: (tree) => replace(tree, label, 'beside: 10 to 30 °C', 'beside: 5 to 30 °C'),
  },
  {
    planted: 'the symbol of single use is left out',
    code: 'label-symbol-without-particular',
    record: 'DO-08',
    says: '23.2(q)',
    plant: (tree) => replace(tree, label, / {2}- \{ symbol: 5\.7\.7.*\n/, ''),
  },
  {
    planted: 'the label also carries the symbol for not sterile',
    code: 'label-symbols-contradict',
    record: 'DO-08',
    says: 'a device is sterile or it is not',
    plant: (tree) => replace(tree, label, 'symbols:\n', 'symbols:\n  - { symbol: 5.2.7, answers: [] }\n'),
    also: [],
  },
  {
    planted: 'a symbol has a number that the standard does not have',
    code: 'label-symbol-unknown',
    record: 'DO-08',
    says: '5.2.19',
    plant: (tree) => replace(tree, label, 'symbol: 5.2.11', 'symbol: 5.2.19'),
  },
  {
    planted: 'the instructions list a particular of a clause that there is not',
    code: 'clause-unknown',
    record: 'DO-09',
    says: '"23.4(zz)"',
    plant: (tree) =>
      replace(
        tree,
        'design-outputs/DO-09.md',
        'particulars:\n',
        'particulars:\n  - { clause: 23.4(zz), content: "Section 9: nothing" }\n',
      ),
  },
  {
    planted: 'a market with another language is added',
    code: 'market-language-missing',
    record: 'DO-08',
    says: 'nl for Netherlands',
    plant: (tree) =>
      replace(tree, 'plinth.yaml', 'markets:\n', 'markets:\n  - { market: Netherlands, languages: [nl] }\n'),
  },
  {
    planted: 'a digit of the Basic UDI-DI is exchanged',
    code: 'gs1-check-digit-wrong',
    record: '',
    says: 'has the check characters VF, computed',
    plant: (tree) => replace(tree, 'plinth.yaml', '9520123DGA1VF', '9520132DGA1VF'),
  },
  {
    planted: 'the elastomer is in no group of the biological evaluation',
    code: 'biological-contact-missing',
    record: 'MT-05',
    says: 'in no group',
    plant: (tree) => replace(tree, evaluation, '[MT-01, MT-02, MT-05]', '[MT-01, MT-02]'),
  },
  {
    planted: 'sensitisation is not addressed for the graft path',
    code: 'biological-endpoint-open',
    record: 'BE-01',
    says: 'plans the endpoint "sensitisation" and does not address it for the group "graft path"',
    plant: (tree) =>
      replace(tree, evaluation, /(endpoint: sensitisation\n {4}groups: )\[tip, graft path\]/, '$1[tip]'),
  },
  {
    planted: 'the irritation test was done on moulded plates of another grade',
    code: 'biological-sample-differs',
    record: 'BE-01',
    says: 'was done on a part',
    plant: (tree) => replace(tree, evaluation, /(number: B3.*\n {4}sample: \{ of: )final device/, '$1part'),
  },
  {
    planted: 'genotoxicity is left to a rationale without reason',
    code: 'biological-endpoint-unfounded',
    record: 'BE-01',
    says: 'a rationale, and no reason',
    plant: (tree) =>
      replace(tree, evaluation, /(endpoint: genotoxicity\n(?: {4}.*\n)*?) {4}reason: .*\n/, '$1'),
  },
  {
    planted: 'the evaluation was done to the edition of 2018',
    code: 'biological-edition-older',
    record: 'BE-01',
    says: 'the list of standards has 2025',
    plant: (tree) => replace(tree, evaluation, 'edition: "2025"', 'edition: "2018"'),
  },
  {
    planted: 'three more units are drawn for particles than the sterilised units leave',
    code: 'conditioning-units-exceeded',
    record: 'CP-01',
    says: '1613 units leave "sterilised", and 1600 go into it',
    plant: (tree) =>
      replace(
        tree,
        conditioning,
        'protocol: VP-18, record: VR-18, node: sterilised, units: 10',
        'protocol: VP-18, record: VR-18, node: sterilised, units: 120',
      ),
  },
  {
    planted: 'seal strength is drawn from packs that were aged and not shipped',
    code: 'conditioning-not-supplied',
    record: 'CP-01',
    says: 'units that are aged, it tests units that are aged and shipped',
    plant: (tree) => {
      replace(tree, conditioning, 'record: VR-19, node: aged and shipped', 'record: VR-19, node: aged');
      replace(tree, conditioning, /(node: aged\n(?: {4}.*\n)*? {4}units: )170/, '$1190');
    },
  },
  {
    planted: 'nobody planned units for integrity',
    code: 'conditioning-not-supplied',
    record: 'VP-20',
    says: 'no conditioning plan supplies it',
    plant: (tree) => replace(tree, conditioning, / {2}- \{ protocol: VP-20,.*\n/, ''),
  },
  {
    planted: 'the chamber of the second run was stopped after 120 days',
    code: 'planned-ageing-too-short',
    record: 'CP-01',
    says: 'ages for 120 d, 1095 d of the claim need 137 d',
    plant: (tree) =>
      replace(tree, conditioning, /(node: revision B aged\n(?: {4}.*\n)*?.*days: )137/, '$1120'),
  },
  {
    planted: 'transport began before the units had left the chamber',
    code: 'conditioning-order-wrong',
    record: 'CP-01',
    says: '"aged and shipped" begins on 2026-05-20',
    plant: (tree) =>
      replace(tree, conditioning, /(node: aged and shipped.*begins: )"2026-06-01"/, '$1"2026-05-20"'),
  },
  {
    planted: 'a node takes its units from one that is not there',
    code: 'conditioning-node-unknown',
    record: 'CP-01',
    says: '"storage"',
    plant: (tree) =>
      replace(
        tree,
        conditioning,
        'from: storage extremes, step: transport',
        'from: storage, step: transport',
      ),
  },
  {
    planted: 'the first node takes its units from a branch of its own, so that every node hangs on a circle',
    code: 'conditioning-node-unknown',
    record: 'CP-01',
    says: 'in a circle: "built" from "study lot" from "sterilised" from "built"',
    plant: (tree) =>
      replace(tree, conditioning, '{ node: built, step', '{ node: built, from: study lot, step'),
  },
  {
    planted: 'no units are kept for the pull after 36 months',
    code: 'real-time-pull-not-supplied',
    record: 'CP-01',
    says: '12, 24 months',
    plant: (tree) => replace(tree, conditioning, '      - { months: 36, units: 170 }\n', ''),
  },
  {
    planted: 'real-time storage was forgotten',
    code: 'accelerated-ageing-alone',
    record: 'CP-01',
    says: 'no units are stored in real time',
    plant: (tree) => replace(tree, conditioning, /step: real-time ageing/g, 'step: other'),
  },
  {
    planted: 'four years are printed and planned for, three were shown',
    code: 'shelf-life-beyond-evidence',
    record: 'AN-21A',
    says: '4 years, 1460 d',
    plant: (tree) => {
      replace(tree, 'plinth.yaml', 'shelf_life: 3 years', 'shelf_life: 4 years');
      replace(tree, label, 'shelf_life: 3 years', 'shelf_life: 4 years');
      replace(tree, label, /2029-05-31/g, '2030-05-31');
      replace(tree, label, /\(17\)290531/g, '(17)300531');
      replace(tree, conditioning, 'claim: 3 years\n', 'claim: 48 months\n');
    },
    also: [
      'accelerated-ageing-alone',
      'claim-number-unfounded',
      'phrase-value-differs',
      'planned-ageing-too-short',
    ],
  },
  {
    planted: 'a claim was approved without evidence',
    code: 'claim-without-evidence',
    record: 'CM-02',
    says: 'names no evidence',
    plant: (tree) => replace(tree, 'claims/CM-02.md', /^evidence: .*\n/m, ''),
  },
  {
    planted: 'the claim on sterility rests on the test of aged tips that failed',
    code: 'claim-evidence-unproven',
    record: 'CM-04',
    says: 'VR-09A failed',
    plant: (tree) => replace(tree, 'claims/CM-04.md', 'evidence: [VR-14,', 'evidence: [VR-09A, VR-14,'),
  },
  {
    planted: 'the brochure and the instructions promise 20 N, 25 N were accepted',
    code: 'claim-beyond-evidence',
    record: 'CM-01',
    says: 'claims "squeeze force" of at most 20 N, and VP-01 accepts at most 25 N',
    plant: (tree) => {
      replace(tree, 'claims/CM-01.md', 'squeeze force not over 25 N', 'squeeze force not over 20 N');
      replace(tree, 'claims/CM-01.md', 'unit: N, upper: 25', 'unit: N, upper: 20');
      replace(tree, 'documents/DOC-10.md', 'squeeze force not over 25 N', 'squeeze force not over 20 N');
      replace(tree, 'design-outputs/DO-09.md', 'squeeze force not over 25 N', 'squeeze force not over 20 N');
    },
  },
  {
    planted: 'the time in the claim was shortened, its limit was not',
    code: 'claim-number-unfounded',
    record: 'CM-03',
    says: 'it says 45',
    plant: (tree) => replace(tree, 'claims/CM-03.md', 'in hand within 60 s', 'in hand within 45 s'),
  },
  {
    planted: 'the instructions give another volume than the claim',
    code: 'claim-wording-differs',
    record: 'DOC-10',
    says: 'states CM-01 with "480" instead of "475"',
    plant: (tree) => replace(tree, 'documents/DOC-10.md', '475 to 530 mm³ in 25', '480 to 530 mm³ in 25'),
  },
  {
    planted: 'the brochure no longer takes in a claim that names it',
    code: 'claim-places-differ',
    record: 'CM-03',
    says: 'DOC-28 does not say',
    plant: (tree) => replace(tree, brochure, ':claim[CM-03].', 'Quite soon.'),
  },
  {
    planted: 'the brochure calls the device painless',
    code: 'misleading-word-unexplained',
    record: 'DOC-28',
    says: '"painless", which promises without limits',
    plant: (tree) => replace(tree, brochure, 'a single-use device', 'a painless single-use device'),
  },
  {
    planted: 'the brochure gives a number of its own',
    code: 'statement-without-claim',
    record: 'DOC-28',
    says: '"9 of 10"',
    plant: (tree) => replace(tree, brochure, 'The marks on', '9 of 10 surgeons read them. The marks on'),
  },
  {
    planted: 'the brochure does not send the reader to the instructions',
    code: 'user-material-incomplete',
    record: 'DOC-28',
    says: 'neither tells of the 4 risks that remain nor names the instructions',
    plant: (tree) =>
      replace(
        tree,
        brochure,
        'Read the instructions for use, IFU-DGA1, before use; they hold warnings and contra-indications.',
        'Enjoy.',
      ),
  },
  {
    planted: 'the instructions give another intended purpose',
    code: 'intended-purpose-differs',
    record: 'DOC-10',
    says: 'gives as the intended purpose "For placing granules into sinus',
    plant: (tree) =>
      replace(
        tree,
        'documents/DOC-10.md',
        /(Intended purpose: )[^\n]*/,
        '$1For placing granules into sinus and soft tissue by any dental professional.',
      ),
  },
  {
    planted: 'the instructions leave the intended purpose out',
    code: 'intended-purpose-differs',
    record: 'DO-09',
    says: 'does not state the intended purpose',
    plant: (tree) => replace(tree, 'documents/DOC-10.md', /Intended purpose: [^\n]*\n/, ''),
  },
  {
    planted: 'the label says otherwise what the device is for',
    code: 'intended-purpose-differs',
    record: 'DO-08',
    says: 'the particular 23.2(b)',
    plant: (tree) =>
      replace(
        tree,
        label,
        /(One applicator, empty, with tip\. )[^\n]*/,
        '$1For placing granules into sinus.',
      ),
  },
  {
    planted: 'the brochure gives another intended purpose',
    code: 'intended-purpose-differs',
    record: 'DOC-28',
    says: 'gives as the intended purpose "For placing granules anywhere in the mouth"',
    plant: (tree) =>
      replace(tree, brochure, ':phrase[intended_purpose]', 'For placing granules anywhere in the mouth.'),
  },
  {
    planted: 'the label gives the volume in fewer squeezes',
    code: 'phrase-differs',
    record: 'DO-08',
    says: 'delivered_volume with "20" instead of "25"',
    plant: (tree) => replace(tree, label, '0.50 cm³ in 25 squeezes', '0.50 cm³ in 20 squeezes'),
  },
  {
    planted: 'the label allows larger granules',
    code: 'phrase-differs',
    record: 'DO-08',
    says: 'granule_size with "0.5 to 2.0" instead of "0.25 to 1.0"',
    plant: (tree) => replace(tree, label, 'Granules of 0.25 to 1.0 mm', 'Granules of 0.5 to 2.0 mm'),
  },
  {
    planted: 'the instructions no longer exclude cements',
    code: 'phrase-differs',
    record: 'DOC-10',
    says: 'contra_indication with "or cements" is missing',
    plant: (tree) =>
      replace(
        tree,
        'documents/DOC-10.md',
        '- Not for injecting liquids or cements',
        '- Not for injecting liquids',
      ),
  },
  {
    planted: 'a letter of the name of the maker is wrong on the label',
    code: 'maker-differs',
    record: 'DO-08',
    says: 'is not the name of the maker',
    plant: (tree) => replace(tree, label, 'with Harrow Lane Instruments', 'with Harrow Lame Instruments'),
  },
  {
    planted: 'the number of the house is wrong in the instructions',
    code: 'maker-differs',
    record: 'DO-09',
    says: 'does not give the address of the maker',
    plant: (tree) => replace(tree, 'documents/DOC-10.md', '12 Harrow Lane', '21 Harrow Lane'),
  },
  {
    planted: 'the declaration is that of another firm',
    code: 'maker-differs',
    record: 'DOC-21',
    says: 'names "Other Medical Ltd" as the maker',
    plant: (tree) =>
      replace(tree, 'documents/DOC-21.md', 'filled in from', 'of Other Medical Ltd, filled in from'),
  },
  {
    planted: 'the symbol for a single use was taken off the list',
    code: 'label-symbol-without-particular',
    record: 'DO-08',
    says: '23.2(n) is told by 2 symbols, and 1 of the record answers it',
    plant: (tree) => replace(tree, label, /.*symbol: 5\.4\.2,.*\n/, ''),
  },
  {
    planted: 'the record of the label has no identifier',
    code: 'udi-missing',
    record: 'DO-08',
    says: 'has no "udi"',
    plant: (tree) => replace(tree, label, /^udi: .*\n/m, ''),
  },
  {
    planted: 'single use is said not to apply, and stands on the label',
    code: 'particular-set-aside',
    record: 'DO-08',
    says: '23.2(n), which GR-23 marks as not applicable',
    plant: (tree) =>
      replace(
        tree,
        'requirements/GR-23.md',
        /(clause: "23\.2\(n\)"\n {4}applicable: )true\n[\s\S]*?(?= {2}- clause: "23\.2\(o\)")/,
        '$1false\n    reason: The device may be used again.\n',
      ),
  },
  {
    planted: 'a submission says that the device does not measure',
    code: 'device-feature-denied',
    record: 'SB-01',
    says: 'leaves row 6.2(f) empty with "The device has no measuring function."',
    plant: (tree) =>
      replace(
        tree,
        'submissions/SB-01.md',
        /(clause: 6\.2\(f\)\n {8})content:\n.*\n/,
        '$1empty: The device has no measuring function.\n',
      ),
  },
  {
    planted: 'the classification does not know that the device is sterile',
    code: 'device-feature-denied',
    record: 'CL-01',
    says: 'does not have "sterile" among the features',
    plant: (tree) => replace(tree, 'classification/CL-01.md', 'features: [sterile]', 'features: []'),
  },
  {
    planted: 'the brochure promises that there are no infections',
    code: 'misleading-word-unexplained',
    record: 'DOC-28',
    says: '"zero infections", which promises without limits',
    plant: (tree) => replace(tree, brochure, 'The marks on', 'Zero infections, pain free. The marks on'),
  },
  {
    planted: 'the label does not tell of the CE marking',
    code: 'ce-marking-incomplete',
    record: 'DO-08',
    says: 'CL-01 has class IIa, in which a notified body takes part',
    plant: (tree) => replace(tree, label, /^ce_marking:\n.*\n/m, ''),
  },
  {
    planted: 'the instructions allow four years',
    code: 'phrase-value-differs',
    record: 'DOC-10',
    says: 'a shelf life of 4 years, plinth.yaml has "3 years"',
    plant: (tree) => replace(tree, 'documents/DOC-10.md', 'Use within 3 years', 'Use within 4 years'),
  },
  {
    planted: 'the brochure is that of another device',
    code: 'device-name-differs',
    record: 'DOC-28',
    says: 'writes "DGA-2"',
    plant: (tree) =>
      replace(tree, brochure, 'a single-use device', 'the sister of the DGA-2, a single-use device'),
  },
];

const clean: Tree = new Map(readTree('content'));
const keyOf = ({ code, message }: Finding): string => `${code}: ${message}`;
const stands = new Set(analyse(inputsFrom(clean)).findings.map(keyOf));

test('the demonstration file has no finding', () => {
  expect([...stands]).toEqual([]);
});

/** Files that a fault changes. */
const touched = (fault: SingleFault): readonly string[] => {
  const planted: Tree = new Map(clean);
  fault.plant(planted);
  return [...planted].filter(([path, text]) => clean.get(path) !== text).map(([path]) => path);
};

/**
 * Faults that are planted together, since an analysis of the whole file takes time: no two change the same file, and what
 * changes plinth.yaml stays alone.
 */
const groups = faults.reduce<{ readonly members: SingleFault[]; readonly files: Set<string> }[]>(
  (found, fault) => {
    const files = touched(fault);
    const alone = files.includes('plinth.yaml');
    const group = alone
      ? undefined
      : found.find((each) => !each.files.has('plinth.yaml') && !files.some((file) => each.files.has(file)));
    if (group) {
      group.members.push(fault);
      for (const file of files) group.files.add(file);
    } else found.push({ members: [fault], files: new Set(files) });
    return found;
  },
  [],
);

describe('faults in labels, biology, conditioning or claims give their findings and no other', () => {
  test('every fault is planted once', () => {
    expect(groups.flatMap(({ members }) => members).length).toBe(faults.length);
    expect(faults.length).toBeGreaterThan(30);
  });

  test.each(
    groups.map(({ members }) => [members.map(({ planted }) => planted).join('; '), members] as const),
  )('%s', (_, members) => {
    const planted: Tree = new Map(clean);
    for (const { plant } of members) plant(planted);
    const found = analyse(inputsFrom(seal(planted))).findings;
    expect([...new Set(found.map(({ code }) => code))].sort(), found.map(keyOf).join('\n')).toEqual(
      [...new Set(members.flatMap(({ code, also }) => [code, ...(also ?? [])]))].sort(),
    );
    for (const { code, record, says } of members) {
      const meant = found.filter((each) => each.code === code && (each.records[0] ?? '') === record);
      expect(meant.map(keyOf).join('\n')).toContain(says);
    }
  });
});

/** One text of every kind that repeats a single-sourced wording: a field or the body of the record. */
const places: readonly (readonly [string, string, RegExp])[] = [
  ['a label', label, /(content: One applicator, empty, with tip\. )[^\n]*/],
  ['instructions for use', 'documents/DOC-10.md', /(Intended purpose: )[^\n]*/],
  ['the risk management plan', 'documents/DOC-06.md', /()To hold and deliver[^\n]*/],
  ['the risk report', 'documents/DOC-09.md', /(> )To hold[^\n]*/],
  ['the scope of the risk plan', 'risks/RP-01.md', /(scope: )[^\n]*/],
  ['a protocol', 'verification/VP-01.md', /()The squeeze force of DI-01 is measured[^\n]*/],
  ['a design input', 'design-inputs/DI-01.md', /(\n---\n\n)[^\n]*/],
  ['a row of the legal requirements', 'requirements/GR-1.md', /(solution: )[^\n]*/],
  ['a brochure', brochure, /(Intended purpose: )[^\n]*/],
  ['the classification', 'classification/CL-01.md', /(intended_purpose: )[^\n]*/],
  ['what a label states', 'design-outputs/DO-09.md', /(intended_purpose: )[^\n]*/],
  ['the declaration of conformity', 'documents/DOC-21.md', /(\n---\n\n)[^\n]*/],
  ['a summary for an authority', 'documents/DOC-17.md', /(Intended purpose: )[^\n]*/],
  ['an answer to an authority', 'questions/AQ-01.md', /(## Answer\n\n)[^\n]*/],
  ['a review', 'reviews/RV-02.md', /(\n---\n\n)[^\n]*/],
];

test('another wording of the intended purpose is found in texts of every kind, with both places', () => {
  const differs =
    'To hold and deliver particulate bone graft material into intra-oral bone defects during oral surgery, by dental professionals, single use.';
  const planted: Tree = new Map(clean);
  for (const [, file, pattern] of places) replace(planted, file, pattern, `$1${differs}`);
  const found = analyse(inputsFrom(planted)).findings.filter(({ code }) => code === 'phrase-differs');
  expect(found.map(({ place }) => place.file).sort()).toEqual(places.map(([, file]) => file).sort());
  for (const { message, place, related } of found) {
    expect(message).toMatch(/(?:repeats|states) intended_purpose with "professionals" instead of "surgeons"/);
    const lines = String(planted.get(place.file)).split('\n');
    expect(lines[place.line - 1]).toContain('dental professionals');
    expect(related.map((other) => other.place.file)).toEqual(['plinth.yaml']);
  }
});

import { edit, read, replace, type SingleFault } from './planted-faults.ts';
import { tryFaults } from './risk-faults.ts';
import type { Tree } from './seal.ts';

const data = 'risks/FD-01.md';
const plan = 'risks/SP-01.md';

/** The events of the last quarter, with those that the fault wants. */
const lastQuarter = (tree: Tree, events: number): void =>
  replace(tree, 'risks/data/FD-01.csv', '2024-Q4,5300,5', `2024-Q4,5300,${events}`);

const faults: readonly SingleFault[] = [
  {
    planted: 'many more seal defects than P1 claims',
    code: 'experience-contradicts-estimate',
    record: 'RK-01',
    says: 'at least 0.034 with 95 % confidence, but P1 0.001 is claimed before control',
    plant: (tree) =>
      edit(tree, 'risks/data/FD-01.csv', (text) =>
        text.replace(/,(\d)$/gm, (_, events) => `,${Number(events) * 36}`),
      ),
  },
  {
    planted: 'the defects of the last quarter are many more than before',
    code: 'complaints-rising',
    record: 'RK-01',
    says: '5, 4, 6, 5, 4, 7, 5, 16',
    plant: (tree) => lastQuarter(tree, 16),
  },
  {
    planted: 'a threshold of one defect in a thousand packs was reached and nobody looked',
    code: 'surveillance-threshold-reached',
    record: 'RK-01',
    says: '2023-Q1 (5 events in 4800 uses',
    plant: (tree) =>
      replace(
        tree,
        plan,
        'thresholds:\n',
        'thresholds:\n  - { risk: RK-01, counts: situation, rate: 0.001 }\n',
      ),
  },
  {
    planted: 'a count of defects is a half',
    code: 'field-data-unusable',
    record: 'FD-01',
    says: '"4.5" under "seal defects" is not a whole number from 0',
    plant: (tree) => replace(tree, 'risks/data/FD-01.csv', '2023-Q2,5100,4', '2023-Q2,5100,4.5'),
  },
  {
    planted: 'the column of defects was renamed',
    code: 'field-data-unusable',
    record: 'FD-01',
    says: 'has no column "seal defects"',
    plant: (tree) => replace(tree, 'risks/data/FD-01.csv', 'seal defects', 'defects'),
  },
  {
    planted: 'nobody assessed the data',
    code: 'field-data-not-assessed',
    record: 'FD-01',
    says: 'was not assessed',
    plant: (tree) => replace(tree, data, /^assessed: .*\n/m, ''),
  },
  {
    planted: 'the data were assessed before the last quarter was over',
    code: 'field-data-not-assessed',
    record: 'FD-01',
    says: 'before its period ended',
    plant: (tree) => replace(tree, data, 'date: 2025-10-20', 'date: 2024-10-20'),
  },
  {
    planted: 'nothing says why the scraper counts for the applicator',
    code: 'comparable-device-unexplained',
    record: 'FD-01',
    says: 'why it is comparable',
    plant: (tree) => replace(tree, data, /^ {2}reason: .*\n/m, ''),
  },
  {
    planted: 'no source watches RK-11',
    code: 'risk-without-surveillance',
    record: 'RK-11',
    says: 'is watched by no source of SP-01',
    plant: (tree) => replace(tree, plan, 'RK-10, RK-11, RK-12', 'RK-10, RK-12'),
  },
  {
    planted: 'the surveillance plan was withdrawn',
    code: 'surveillance-plan-missing',
    record: 'RK-01',
    says: 'no surveillance plan',
    plant: (tree) => {
      tree.delete(plan);
      tree.delete(data);
      tree.delete('risks/data/FD-01.csv');
    },
    also: ['unknown-link-target'],
  },
  {
    planted: 'units of its own were counted long ago, and no more since',
    code: 'surveillance-overdue',
    record: 'SP-01',
    says: 'the next were due by 2025-05-31',
    plant: (tree) => {
      replace(tree, data, 'which: comparable', 'which: own');
      replace(tree, data, ', estimate: before', '');
    },
    also: ['experience-contradicts-estimate'],
  },
  {
    planted: 'the plan speaks of probabilities in a year, the counts are of packs',
    code: 'field-data-unusable',
    record: 'FD-01',
    says: 'the counts are per use, and the probabilities of the risk criteria are per year of use',
    plant: (tree) => replace(tree, 'risks/RP-01.md', 'denominator: per use', 'denominator: per year of use'),
  },
  {
    planted: 'a word of the description differs in the next record',
    code: 'field-series-split',
    record: 'FD-02',
    says: 'under another description of the device',
    plant: (tree) => {
      const next = read(tree, data)
        .replaceAll('FD-01', 'FD-02')
        .replace('from: 2023-01-01, to: 2024-12-31', 'from: 2025-01-01, to: 2025-03-31')
        .replace('a bone scraper', 'the bone scraper');
      tree.set('risks/FD-02.md', next);
      tree.set('risks/data/FD-02.csv', 'quarter,packs examined,seal defects\n2025-Q1,5000,4\n');
    },
  },
  {
    planted: 'a quarter was left out',
    code: 'field-data-not-continuous',
    record: 'FD-01',
    says: 'nothing is counted from 2023-07-01 to the day before 2023-Q4',
    plant: (tree) => replace(tree, 'risks/data/FD-01.csv', '2023-Q3,5000,6\n', ''),
  },
  {
    planted: 'the next year goes on from the wrong day',
    code: 'field-data-not-continuous',
    record: 'FD-02',
    says: 'until 2024-12-31 in FD-01 and from 2025-04-01 in FD-02, and by nobody in between',
    plant: (tree) => {
      const next = read(tree, data)
        .replaceAll('FD-01', 'FD-02')
        .replace('from: 2023-01-01, to: 2024-12-31', 'from: 2025-04-01, to: 2025-06-30')
        .replace('date: 2025-10-20', 'date: 2025-10-21');
      tree.set('risks/FD-02.md', next);
      tree.set('risks/data/FD-02.csv', 'quarter,packs examined,seal defects\n2025-Q2,5000,4\n');
    },
  },
  {
    planted: 'the statement on granules in the words of the instructions says less',
    code: 'disclosure-not-in-wording',
    record: 'DO-09',
    says: 'DO-09 discloses RK-12',
    plant: (tree) =>
      replace(
        tree,
        'documents/DOC-10.md',
        'Larger granules jam the tip and delay the placement.',
        'Larger granules may jam the tip.',
      ),
  },
  {
    planted: 'the instructions were issued at revision D, their words are still those of C',
    code: 'disclosure-not-in-wording',
    record: 'DO-09',
    says: 'is revision D',
    plant: (tree) => replace(tree, 'design-outputs/DO-09.md', 'revision: C', 'revision: D'),
    also: ['tested-revision-not-released'],
  },
];

tryFaults('field data and the words of the instructions', faults);

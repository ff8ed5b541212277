import type { Tree } from './seal.ts';

/** One fault planted in the clean demonstration file, and the one error that it must produce. */
export interface PlantedFault {
  readonly number: string;
  readonly planted: string;
  readonly code: string;
  /** The record that the finding is mainly about. */
  readonly record: string;
  /** A part of the message. */
  readonly says: string;
  readonly plant: (tree: Tree) => void;
  /** Whether everybody signs the faulty state, as people do who have not noticed. Default true. */
  readonly signed?: boolean;
}

/** A fault of any level, with the codes of other findings that follow from the same cause. */
export interface SingleFault extends Omit<PlantedFault, 'number' | 'signed'> {
  readonly also?: readonly string[];
}

const decoder = new TextDecoder();

/** Text of a file of the tree. Throws where there is none. */
export const read = (tree: Tree, path: string): string => {
  const content = tree.get(path);
  if (content === undefined) throw new Error(`the demonstration file has no ${path}`);
  return typeof content === 'string' ? content : decoder.decode(content);
};

/** Changes a file of the tree. Throws where nothing changes, so that no fault is planted in vain. */
export const edit = (tree: Tree, path: string, change: (text: string) => string): void => {
  const before = read(tree, path);
  const after = change(before);
  if (after === before) throw new Error(`the fault changed nothing in ${path}`);
  tree.set(path, after);
};

/** Replaces a piece of a file of the tree. */
export const replace = (tree: Tree, path: string, from: string | RegExp, to: string): void =>
  edit(tree, path, (text) => text.replace(from, to));

/** Front matter without one top-level field and what belongs to it. */
export const withoutField = (text: string, field: string): string =>
  text.replace(new RegExp(`^${field}:.*\\n(?: .*\\n|- .*\\n)*`, 'm'), '');

export const plantedFaults: readonly PlantedFault[] = [
  {
    number: 'F1',
    planted: 'VR-09A states pass because all 30 readings are above 30 N',
    code: 'stated-result-differs',
    record: 'VR-09A',
    says: '29.12 N',
    plant: (tree) => replace(tree, 'verification/VR-09A.md', 'result: fail', 'result: pass'),
  },
  {
    number: 'F2',
    planted: 'the pull tester was used on 2026-06-02, its calibration ended on 2026-05-15',
    code: 'equipment-out-of-calibration',
    record: 'EQ-03',
    says: '2026-05-15',
    plant: (tree) => replace(tree, 'equipment/EQ-03.md', / {2}- certificate: C-26-0104\n(?: {4}.*\n)+/, ''),
  },
  {
    number: 'F3',
    planted: 'VP-10 was approved on 2026-06-03 and executed on 2026-06-01',
    code: 'protocol-approved-after-execution',
    record: 'VR-10',
    says: '2026-06-03',
    plant: (tree) =>
      edit(tree, 'verification/VP-10.md', (text) =>
        text.replace(/^( {4}date: )2025-11-\d\d$/gm, '$12026-06-03'),
      ),
  },
  {
    number: 'F4',
    planted: 'DI-18 has no protocol',
    code: 'input-without-verification',
    record: 'DI-18',
    says: 'DI-18',
    plant: (tree) => {
      tree.delete('verification/VP-18.md');
      tree.delete('verification/VR-18.md');
      for (const path of [...tree.keys()])
        if (path.endsWith('.md') && /\b[VR|VP]+-18\b/.test(read(tree, path)))
          edit(tree, path, (text) =>
            text.replace(/\b(V[PR])-18\b/g, '$1-17').replace(/\b(V[PR]-17), \1\b/g, '$1'),
          );
    },
  },
  {
    number: 'F5',
    planted: 'DO-04 was changed after its approval',
    code: 'approval-lapsed',
    record: 'DO-04',
    says: 'VP-09',
    signed: false,
    plant: (tree) =>
      replace(
        tree,
        'design-outputs/DO-04.md',
        'snap undercut, nominal: 0.42',
        'snap undercut, nominal: 0.40',
      ),
  },
  {
    number: 'F6',
    planted: 'RC-12 has no evidence that it works',
    code: 'risk-control-not-verified',
    record: 'RC-12',
    says: 'RC-12',
    plant: (tree) => edit(tree, 'risks/RC-12.md', (text) => withoutField(text, 'shown_by')),
  },
  {
    number: 'F7',
    planted: 'the instructions leave out the statement on RK-12',
    code: 'disclosed-risk-missing',
    record: 'RK-12',
    says: 'RK-12',
    plant: (tree) => replace(tree, 'design-outputs/DO-09.md', / {2}- risk: RK-12\n {4}statement:.*\n/, ''),
  },
  {
    number: 'F8',
    planted: 'the ageing record says 120 days',
    code: 'stated-result-differs',
    record: 'AN-21',
    says: '960 d',
    plant: (tree) =>
      edit(tree, 'analyses/AN-21.md', (text) =>
        text.replace('days: 137', 'days: 120').replace('to: 2026-05-29', 'to: 2026-05-12'),
      ),
  },
  {
    number: 'F9',
    planted: '14 dental assistants took part, 15 were planned',
    code: 'participants-below-plan',
    record: 'LR-01',
    says: '14',
    plant: (tree) =>
      edit(tree, 'validation/data/LR-01.csv', (text) => {
        const lines = text.trimEnd().split('\n');
        const last = lines.findLastIndex(
          (line) => line.includes(',UG2,') && !/difficulty|close call|use error/.test(line),
        );
        return `${lines.filter((_, index) => index !== last).join('\n')}\n`;
      }),
  },
  {
    number: 'F10',
    planted: 'the label proof lacks month and year of manufacture',
    code: 'label-particular-missing',
    record: 'DO-08',
    says: '23.3(h)',
    plant: (tree) => replace(tree, 'design-outputs/DO-08.md', / {2}- clause: 23\.3\(h\)\n(?: {4}.*\n)+/, ''),
  },
  {
    number: 'F11',
    planted: 'DI-24 is tested with 59 units although severity S5 asks for 299, and no reason is given',
    code: 'sampling-below-policy',
    record: 'VP-24',
    says: 'RK-10',
    plant: (tree) => edit(tree, 'verification/VP-24.md', (text) => text.replace(/^ {2}exception:.*\n/m, '')),
  },
  {
    number: 'F12',
    planted: 'the raw data of VP-03 have 31 rows, one of them excluded without a deviation',
    code: 'undocumented-exclusion',
    record: 'VR-03',
    says: 'L003-11',
    plant: (tree) => {
      edit(tree, 'verification/data/VR-03.csv', (text) => `${text.trimEnd()}\nL003-11,L003,25.90\n`);
      replace(
        tree,
        'verification/VR-03.md',
        'result: pass\n',
        'exclusions:\n  - { unit: L003-11, reason: Reading looked wrong. }\nresult: pass\n',
      );
    },
  },
  {
    number: 'F13',
    planted: 'clause 14.4 is marked as not applicable without a reason',
    code: 'applicability-without-reason',
    record: 'GR-14',
    says: '14.4',
    plant: (tree) =>
      replace(
        tree,
        'requirements/GR-14.md',
        /(clause: "14\.4"\n {4}applicable: false\n) {4}reason: .*\n/,
        '$1',
      ),
  },
  {
    number: 'F14',
    planted: 'the intended purpose in the risk management plan differs from that on the label',
    code: 'phrase-differs',
    record: 'DOC-06',
    says: 'intended_purpose',
    plant: (tree) =>
      edit(tree, 'documents/DOC-06.md', (text) =>
        text.replace(/by\s+dental\s+surgeons,\s+single\s+use/, 'by dentists, single use'),
      ),
  },
  {
    number: 'F15',
    planted: 'the residual risk RK-10 is not acceptable and BR-01 is not signed',
    code: 'residual-risk-not-accepted',
    record: 'RK-10',
    says: 'BR-01',
    plant: (tree) => edit(tree, 'risks/BR-01.md', (text) => withoutField(text, 'approvals')),
  },
  {
    number: 'F16',
    planted: 'the GTIN in the UDI ends in 7',
    code: 'gs1-check-digit-wrong',
    record: 'DO-08',
    says: '8',
    plant: (tree) =>
      replace(tree, 'design-outputs/DO-08.md', 'udi: (01)09520123456788', 'udi: (01)09520123456787'),
  },
  {
    number: 'F17',
    planted: 'ISO 10993-1:2018 is cited, the list of standards says 2025',
    code: 'standard-edition-differs',
    record: 'VP-17',
    says: '2018',
    plant: (tree) => replace(tree, 'verification/VP-17.md', 'ISO 10993-1:2025', 'ISO 10993-1:2018'),
  },
];

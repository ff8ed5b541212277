import type { Tree } from './seal.ts';

/** How a record of the demonstration file read before a day: from that day on, approvals cover `after`. */
interface TextChange {
  readonly day: string;
  readonly file: string;
  readonly before: string;
  readonly after: string;
}

const changes: readonly TextChange[] = [
  // DC-01: the tip at revision B.
  { day: '2026-06-16', file: 'design-outputs/DO-04.md', before: 'revision: A', after: 'revision: B' },
  {
    day: '2026-06-16',
    file: 'design-outputs/DO-04.md',
    before: 'snap undercut, nominal: 0.35',
    after: 'snap undercut, nominal: 0.42',
  },
  // What the records of revision A add on the day of the change.
  {
    day: '2026-06-16',
    file: 'verification/VR-08.md',
    before: 'DI-08 is met.\n',
    after: 'DI-08 is met. Revision B leaves both dimensions as they are (DC-01).\n',
  },
  {
    day: '2026-06-16',
    file: 'verification/VR-09.md',
    before: 'the design engineer is having a tool insert with a deeper undercut made as a precaution.',
    after:
      'the design engineer had a tool insert with a deeper undercut made as a precaution, and tips from it went into the ageing chamber later (DC-01).',
  },
  {
    day: '2026-06-16',
    file: 'verification/VR-09A.md',
    before: 'The result goes to the verification review.',
    after:
      'The result was taken to the review RV-03 and led to the design change DC-01; the repetition on revision B is to be VR-09B.',
  },
  {
    day: '2026-06-16',
    file: 'verification/VR-11.md',
    before: 'DI-11 is met.\n',
    after:
      'DI-11 is met. The opening is formed by the fixed half of the tool, which revision B does not touch (DC-01).\n',
  },
  // The repetition moves the gate after it.
  {
    day: '2026-06-17',
    file: 'plans/DP-01.md',
    before: 'planned: 2026-07-31\n',
    after:
      'planned: 2026-11-13\n      planned_before:\n        - day: 2026-07-31\n          reason: The repetition after DC-01 needs units that aged for 137 days.\n',
  },
  {
    day: '2026-06-17',
    file: 'plans/DP-01.md',
    before: 'planned: { from: 2026-06-15, to: 2026-07-24 }',
    after: 'planned: { from: 2026-06-15, to: 2026-11-06 }',
  },
  // The second run in the ageing chamber.
  {
    day: '2026-10-20',
    file: 'analyses/AN-21.md',
    before: 'AN-21A counts the log instead of the set point.',
    after: 'AN-21A and AN-21B count the logs of both runs instead of the set point.',
  },
  {
    day: '2026-10-20',
    file: 'analyses/AN-21.md',
    before: 'What the aged units show is reported in VR-01A, VR-10, VR-19 and VR-20.',
    after:
      'What the aged units showed is in VR-01A, VR-10, VR-19 and VR-20, and for the tip of revision B in VR-09B after a second run of 137 d from 2026-05-30 to 2026-10-14.',
  },
  // The newer edition of the standard for transit, learnt of in the yearly look through the list.
  {
    day: '2026-10-26',
    file: 'standards/ST-10.md',
    before: '',
    after: `superseded_by:
  edition: "2023"
  published: 2023-12-01
  source: From memory, for this demonstration; look the edition and its day up with the publisher.
gap_analysis:
  date: 2026-10-26
  role: test engineer
  differences: "Invented for this demonstration: of the parts applied, distribution cycle 13 with assurance level II, schedule and levels were set side by side and found to be those of VP-22. Other parts were not compared, because none is applied."
  affected: [VP-22, VR-22]
  conclusion: no effect
`,
  },
  // The estimate of RK-03 on the result of the repetition.
  {
    day: '2026-11-03',
    file: 'risks/RK-03.md',
    before:
      'P1 after control is what the undercut is meant to reach: it rests on the limit of DI-09 against the pull of 11 N seen in the model, and is looked at again on the results of VP-09 and VP-09A.',
    after:
      'Revision A of DO-04 did not show the retention of DI-09 after ageing (VR-09A). The undercut was deepened by DC-01, and P1 after control was estimated anew on the retest VR-09B: its lower 95/99 bound of 35.45 N for aged revision B tips is more than three times the pull of 11 N seen in the model. The class did not change.',
  },
];

const decoder = new TextDecoder();

/** Days from which on a text of the demonstration file reads as it does today, in order. */
export const daysOfChange: readonly string[] = [...new Set(changes.map(({ day }) => day))].sort();

/** Records of the demonstration file that read otherwise on a day, as they read then. */
export const textsBefore = (tree: Tree, date: string): Tree => {
  const earlier: Tree = new Map();
  for (const { day, file, before, after } of changes) {
    if (day <= date) continue;
    const content = earlier.get(file) ?? tree.get(file) ?? '';
    const text = typeof content === 'string' ? content : decoder.decode(content);
    if (!text.includes(after))
      throw new Error(`${file} no longer reads "${after}"; correct its earlier text`);
    earlier.set(file, text.replace(after, before));
  }
  return earlier;
};

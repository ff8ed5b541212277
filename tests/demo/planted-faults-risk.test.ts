import { readTree } from '../support/technical-file.ts';
import { edit, replace, type SingleFault, withoutField } from './planted-faults.ts';
import { tryFaults } from './risk-faults.ts';

const plan = 'risks/RP-01.md';
const review = 'risks/RR-01.md';

const faults: readonly SingleFault[] = [
  {
    planted: 'the plan was withdrawn and its criteria copied back into plinth.yaml',
    code: 'risk-plan-missing',
    record: '',
    says: '12 in the file',
    plant: (tree) => {
      const text = new TextDecoder().decode(readTree('content').get(plan));
      const criteria = /^criteria:\n((?: .*\n)+)/m.exec(text)?.[1] ?? '';
      const policy = /^sampling_policy:\n(?: .*\n)+/m.exec(text)?.[0] ?? '';
      edit(tree, 'plinth.yaml', (yaml) => `${yaml}\nrisk:\n${criteria}${policy}`);
      tree.delete(plan);
      edit(tree, review, (own) => own.replace('reviews: [RP-01]', 'reviews: [DOC-06]'));
    },
    also: ['wrong-link-target-type', 'unknown-id-in-prose', 'unknown-link-target'],
  },
  {
    planted: 'a policy of old stands in plinth.yaml beside that of the plan',
    code: 'risk-criteria-twice',
    record: 'RP-01',
    says: 'Remove',
    plant: (tree) =>
      edit(
        tree,
        'plinth.yaml',
        (yaml) => `${yaml}\nsampling_policy:\n  - { severity: S1, confidence: 0.9, reliability: 0.9 }\n`,
      ),
  },
  {
    planted: 'a second plan was approved and the first one not retired',
    code: 'risk-criteria-twice',
    record: 'RP-02',
    says: 'RP-01, whose criteria are in force',
    plant: (tree) => {
      const text = new TextDecoder().decode(readTree('content').get(plan));
      tree.set('risks/RP-02.md', text.replace('id: RP-01', 'id: RP-02'));
    },
  },
  {
    planted: 'the plan does not say what holds where no probability can be estimated',
    code: 'risk-plan-incomplete',
    record: 'RP-01',
    says: 'cannot be estimated',
    plant: (tree) => replace(tree, plan, / {2}not_estimable:\n(?: {4}.*\n)+/, ''),
  },
  {
    planted: 'the plan has no method for the overall residual risk',
    code: 'risk-plan-incomplete',
    record: 'RP-01',
    says: 'overall residual risk',
    plant: (tree) => edit(tree, plan, (text) => withoutField(text, 'overall_residual_risk')),
  },
  {
    planted: 'the plan was approved in November, the first risk in October',
    code: 'risk-plan-approved-after-analysis',
    record: 'RP-01',
    says: 'approved on 2025-11-08 and not before 12 of 12 risks, the first of them RK-01 on 2025-10-28',
    plant: (tree) => replace(tree, plan, '    date: 2025-10-08', '    date: 2025-11-08'),
    also: ['gate-passed-unmet'],
  },
  {
    planted: 'RK-09 calls its hazard pyrogens',
    code: 'hazard-not-in-vocabulary',
    record: 'RK-09',
    says: '"pyrogens"',
    plant: (tree) => replace(tree, 'risks/RK-09.md', 'hazard: bacterial endotoxin', 'hazard: pyrogens'),
  },
  {
    planted: 'RK-12 names its harm as the hazard',
    code: 'hazard-not-in-vocabulary',
    record: 'RK-12',
    says: 'lists as a harm',
    plant: (tree) =>
      replace(
        tree,
        'risks/RK-12.md',
        'hazard: wrong granules',
        'hazard: cut of the mucosa that needs a suture',
      ),
  },
  {
    planted: 'RK-07 words its harm in its own way',
    code: 'harm-not-in-vocabulary',
    record: 'RK-07',
    says: '"mucosal cut with a suture"',
    plant: (tree) =>
      replace(
        tree,
        'risks/RK-07.md',
        'harm: cut of the mucosa that needs a suture',
        'harm: mucosal cut with a suture',
      ),
  },
  {
    planted: 'RK-11 has S3 for a harm to which the plan gives S2',
    code: 'harm-severity-differs',
    record: 'RK-11',
    says: 'RP-01 gives that harm S2',
    plant: (tree) => replace(tree, 'risks/RK-11.md', 'severity: S2', 'severity: S3'),
    also: ['sampling-below-policy'],
  },
  {
    planted: 'RK-03 is the same situation as RK-02 with another P1',
    code: 'situation-probability-differs',
    record: 'RK-03',
    says: 'P1 0.0004 before control, RK-02 has 0.0005',
    plant: (tree) => {
      const other = new TextDecoder().decode(readTree('content').get('risks/RK-02.md'));
      for (const field of ['sequence', 'hazardous_situation']) {
        const line = new RegExp(`^${field}: .*$`, 'm');
        edit(tree, 'risks/RK-03.md', (text) => text.replace(line, line.exec(other)?.[0] ?? ''));
      }
      replace(tree, 'risks/RK-03.md', 'p1: 0.000001', 'p1: 0.000002');
    },
  },
  {
    planted: 'RC-12 gives no reason why endotoxin is left to the process',
    code: 'option-without-reason',
    record: 'RC-12',
    says: 'no measure of higher priority controls RK-09',
    plant: (tree) => edit(tree, 'risks/RC-12.md', (text) => withoutField(text, 'option_reason')),
  },
  {
    planted: 'RC-14 does not say what the ratchet leaves open',
    code: 'option-without-reason',
    record: 'RC-14',
    says: 'what RC-13 leaves open',
    plant: (tree) => edit(tree, 'risks/RC-14.md', (text) => withoutField(text, 'option_reason')),
  },
  {
    planted: 'RK-05 is acceptable and nobody asked for more',
    code: 'further-reduction-unargued',
    record: 'RK-05',
    says: 'cannot be reduced further',
    plant: (tree) => edit(tree, 'risks/RK-05.md', (text) => withoutField(text, 'alarp')),
  },
  {
    planted: 'RK-10 is called S4 after control',
    code: 'severity-lowered-without-reason',
    record: 'RK-10',
    says: 'S4 after control, S5 before',
    plant: (tree) => replace(tree, 'risks/RK-10.md', '  p1: 0.0002\n', '  severity: S4\n  p1: 0.0002\n'),
  },
  {
    planted: 'nobody looked whether the escapement of RC-06 is in the lever',
    code: 'control-not-seen-in-place',
    record: 'RC-06',
    says: 'was seen to be in place',
    plant: (tree) => edit(tree, 'risks/RC-06.md', (text) => withoutField(text, 'in_place')),
  },
  {
    planted: 'RC-05 is to be seen in place in a test that failed',
    code: 'control-not-seen-in-place',
    record: 'RC-05',
    says: 'VR-09A, whose verdict is fail',
    plant: (tree) => replace(tree, 'risks/RC-05.md', 'seen_in: [DO-04]', 'seen_in: [DO-04, VR-09A]'),
  },
  {
    planted: 'RK-07, which RC-04 brings, went back to draft',
    code: 'control-risk-open',
    record: 'RC-04',
    says: 'RK-07, which has the status draft',
    plant: (tree) => replace(tree, 'risks/RK-07.md', 'status: approved', 'status: draft'),
    also: ['draft-under-approved'],
  },
  {
    planted: 'RC-10 brings RK-02, whose control brought RK-07',
    code: 'control-risk-open',
    record: 'RC-04',
    says: 'RC-04 → RK-07 → RC-10 → RK-02 → RC-04',
    plant: (tree) =>
      replace(
        tree,
        'risks/RC-10.md',
        /new_risks:\n {2}answer: .*\n/,
        'new_risks:\n  answer: A rounded edge leaves less wall.\n  risks: [RK-02]\n',
      ),
  },
  {
    planted: 'the final review was signed and the overall residual risk never judged',
    code: 'overall-residual-risk-missing',
    record: 'RV-04',
    says: 'RR-01, which judges the overall residual risk, is not approved',
    plant: (tree) => replace(tree, review, 'status: approved', 'status: in review'),
  },
  {
    planted: 'the review of all risks says no, and the device is released all the same',
    code: 'overall-residual-risk-missing',
    record: 'RV-04',
    says: 'RR-01 of 2026-11-05 decides "not acceptable"',
    plant: (tree) => replace(tree, review, 'decision: acceptable', 'decision: not acceptable'),
  },
  {
    planted: 'the review of all risks was held before the validation had ended',
    code: 'risk-review-too-early',
    record: 'RR-01',
    says: 'dated 2026-07-08, but RK-',
    plant: (tree) => replace(tree, review, 'date: 2026-11-05', 'date: 2026-07-08'),
  },
  {
    planted: 'nobody says where the numbers of RK-09 come from',
    code: 'estimate-without-basis',
    record: 'RK-09',
    says: 'where P1 and P2 come from',
    plant: (tree) => edit(tree, 'risks/RK-09.md', (text) => withoutField(text, 'basis')),
  },
  {
    planted: 'RK-08 says that its probability cannot be estimated, and is too grave for that',
    code: 'residual-risk-not-accepted',
    record: 'RK-08',
    says: 'S3 whose probability cannot be estimated, acceptable then up to S2',
    plant: (tree) =>
      replace(
        tree,
        'risks/RK-08.md',
        /after:\n {2}p1: .*\n {2}p2: .*\n/,
        'after:\n  not_estimable: No published rate fits these polymers.\n',
      ),
  },
  {
    planted: 'RK-01 is graver after control than before',
    code: 'risk-rises-after-control',
    record: 'RK-01',
    says: 'S5 after control, S4 before',
    plant: (tree) => replace(tree, 'risks/RK-01.md', 'after:\n', 'after:\n  severity: S5\n'),
  },
  {
    planted: 'the plan accepts serious injuries more often than those that need an intervention',
    code: 'risk-criteria-incomplete',
    record: 'RP-01',
    says: 'S4 is acceptable up to O3, but the milder S3 only up to O2',
    plant: (tree) => replace(tree, plan, '    S4: O1\n', '    S4: O3\n'),
  },
  {
    planted: 'the plan asks for less confidence for S5 than for S4',
    code: 'risk-criteria-incomplete',
    record: 'RP-01',
    says: 'asks for 0.9 confidence and 0.99 of the units for S5, less than for the milder',
    plant: (tree) =>
      replace(
        tree,
        plan,
        '{ severity: S5, confidence: 0.95, reliability: 0.99 }',
        '{ severity: S5, confidence: 0.9, reliability: 0.99 }',
      ),
  },
  {
    planted: 'RK-05 claims that the ratchet cannot slip',
    code: 'zero-probability-unexplained',
    record: 'RK-05',
    says: 'P1 0 after control',
    plant: (tree) => replace(tree, 'risks/RK-05.md', 'p1: 0.002\n', 'p1: 0\n'),
  },
  {
    planted: 'RK-07 is accepted by a score',
    code: 'risk-score-used',
    record: 'RK-07',
    says: 'speaks of "RPN"',
    plant: (tree) =>
      edit(tree, 'risks/RK-07.md', (text) => `${text.trimEnd()}\n\nThe RPN of 36 lies below 100.\n`),
  },
  {
    planted: 'RC-07 went back to review after its risk had been approved',
    code: 'control-not-approved',
    record: 'RC-07',
    says: 'is in review, and RK-05 is approved',
    plant: (tree) =>
      edit(tree, 'risks/RC-07.md', (text) => text.replace('status: approved', 'status: in review')),
    also: ['draft-under-approved'],
  },
  {
    planted: 'the test of the tip does not decide any more, and the review stands as it was',
    code: 'decision-on-unproven-control',
    record: 'RR-01',
    says: 'RC-04 of RK-02 (in doubt)',
    plant: (tree) =>
      replace(tree, 'verification/data/VR-10.csv', 'L001-03,L001,across,40.64', 'L001-03,L001,across,4.06'),
    also: ['verdict-undecided', 'risk-control-unproven', 'requirement-evidence-failed'],
  },
  {
    planted: 'the depth of the teeth is to be shown by the inspection of the label',
    code: 'control-shown-by-unrelated',
    record: 'RC-07',
    says: 'is to be shown by VP-25, which has nothing to do with DO-02, DI-07',
    plant: (tree) => replace(tree, 'risks/RC-07.md', 'shown_by: [VP-07]', 'shown_by: [VP-25]'),
  },
  {
    planted: 'the depth of the teeth was seen in the instructions for use',
    code: 'control-not-seen-in-place',
    record: 'RC-07',
    says: 'was seen in DO-09, which have nothing to do with these',
    plant: (tree) => replace(tree, 'risks/RC-07.md', 'seen_in: [DO-02, RV-02]', 'seen_in: [DO-09]'),
  },
  {
    planted: 'the plan wants the medical officer to judge as well',
    code: 'overall-decision-role-missing',
    record: 'RR-01',
    says: 'without the approval of medical officer, whom RP-01 names',
    plant: (tree) =>
      replace(
        tree,
        plan,
        'decided_by: [clinical adviser, quality lead]',
        'decided_by: [clinical adviser, quality lead, medical officer]',
      ),
  },
  {
    planted: 'users need not be told of reuse any more, and nobody says why',
    code: 'disclosure-not-decided',
    record: 'RK-10',
    says: 'DO-09 discloses RK-10, which is not marked as disclosed',
    plant: (tree) => replace(tree, 'risks/RK-10.md', 'disclosed: true\n', ''),
  },
  {
    planted: 'reuse was decided on before anybody had tried to refill the device',
    code: 'decision-before-evidence',
    record: 'BR-01',
    says: 'BR-01 was decided on 2026-06-20, but RC-1',
    plant: (tree) => replace(tree, 'risks/BR-01.md', 'date: 2026-11-04\n', 'date: 2026-06-20\n'),
  },
  {
    planted: 'further reduction of RK-11 is still to be argued',
    code: 'placeholder-left',
    record: 'RK-11',
    says: 'still has the placeholder TBD',
    plant: (tree) => edit(tree, 'risks/RK-11.md', (text) => text.replace(/^alarp: .*$/m, 'alarp: TBD')),
  },
  {
    planted: 'the harm of RK-08 is graver than the samples of the residue test were judged for',
    code: 'sample-makes-no-statement',
    record: 'VP-15',
    says: 'stands for RK-08 (severity S5, for which the sampling policy asks for 95/99) and its reason for a sample without confidence and reliability speaks of S3',
    plant: (tree) => replace(tree, 'risks/RK-08.md', 'severity: S3\n', 'severity: S5\n'),
    also: ['harm-severity-differs'],
  },
];

tryFaults('the risk plan, estimates, controls and the review', faults);

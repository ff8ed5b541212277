import { expect, test } from 'vitest';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { edit, read, replace, type SingleFault, withoutField } from './planted-faults.ts';
import { tryFaults } from './risk-faults.ts';
import type { Tree } from './seal.ts';

/** Faults of usability engineering and of failure modes, each with the one finding that it adds. */
const faults: readonly SingleFault[] = [
  {
    planted: 'the use specification is gone',
    code: 'use-specification-missing',
    record: 'LP-01',
    says: 'no use specification',
    plant: (tree) => tree.delete('usability/UP-01.md'),
    also: ['unknown-link-target'],
  },
  {
    planted: 'US-05 names no risk',
    code: 'use-scenario-without-risk',
    record: 'US-05',
    says: 'names no risk',
    plant: (tree) => replace(tree, 'usability/US-05.md', 'risks: [RK-10]', 'risks: []'),
  },
  {
    planted: 'US-04 is in no study',
    code: 'use-scenario-not-evaluated',
    record: 'US-04',
    says: 'RK-04 has the severity S3',
    plant: (tree) => edit(tree, 'usability/US-04.md', (text) => withoutField(text, 'evaluated_by')),
  },
  {
    planted: 'a critical task of LP-01 was renamed',
    code: 'critical-task-without-scenario',
    record: 'LP-01',
    says: 'has the critical task "dispose", and no use scenario describes it',
    plant: (tree) =>
      edit(tree, 'validation/LP-01.md', (text) => text.replace('- task: discard\n', '- task: dispose\n')),
    also: ['use-scenario-not-evaluated'],
  },
  {
    planted: 'loading is not marked as critical in LP-01',
    code: 'critical-task-not-in-study',
    record: 'US-02',
    says: 'RK-06 has the severity S3',
    plant: (tree) =>
      edit(tree, 'validation/LP-01.md', (text) =>
        text.replace(/(task: load\n {4}description: .*\n {4}critical: )true/, '$1false'),
      ),
  },
  {
    planted: 'a harmless scenario is left out without a reason',
    code: 'scenario-not-selected-without-reason',
    record: 'US-02',
    says: 'does not say why',
    plant: (tree) => {
      replace(tree, 'usability/US-02.md', 'selected: true', 'selected: false');
      edit(tree, 'usability/US-02.md', (text) => withoutField(text, 'selection_reason'));
    },
  },
  {
    planted: 'US-06 names a group that nobody described',
    code: 'user-group-unknown',
    record: 'US-06',
    says: 'UG3',
    plant: (tree) => replace(tree, 'usability/US-06.md', '[UG1]', '[UG3]'),
    also: ['use-scenario-not-evaluated'],
  },
  {
    planted: 'LP-02 plans 14 surgeons',
    code: 'study-groups-below-fifteen',
    record: 'LP-02',
    says: '0.771',
    plant: (tree) => replace(tree, 'validation/LP-02.md', 'participants: 15', 'participants: 14'),
  },
  {
    planted: 'the study LP-02 was formative and came after the summative one',
    code: 'summative-before-formative',
    record: 'LR-01',
    says: 'LR-02',
    plant: (tree) => {
      replace(tree, 'validation/LP-02.md', 'study: summative', 'study: formative');
      tree.delete('usability/US-06.md');
      tree.delete('usability/US-07.md');
    },
    also: ['formative-study-as-validation'],
  },
  {
    planted: 'a formative study validates a need',
    code: 'formative-study-as-validation',
    record: 'LP-03',
    says: 'validates UN-09',
    plant: (tree) => replace(tree, 'validation/LP-03.md', 'validates: []', 'validates: [UN-09]'),
  },
  {
    planted: 'a close call is reported for another participant than in the data',
    code: 'observation-differs-from-data',
    record: 'LR-01',
    says: 'the data say "success"',
    plant: (tree) => replace(tree, 'validation/LR-01.md', 'participant: P22', 'participant: P23'),
  },
  {
    planted: 'the close call of P11 is not judged',
    code: 'observation-without-judgement',
    record: 'LR-01',
    says: 'P11',
    plant: (tree) =>
      replace(
        tree,
        'validation/LR-01.md',
        /(task: stop at planned stroke\n {4}kind: .*\n {4}root_cause: .*\n) {4}judgement: .*\n/,
        '$1',
      ),
  },
  {
    planted: 'RC-09 is shown by inspection only',
    code: 'information-control-not-in-study',
    record: 'RC-09',
    says: 'VP-26',
    plant: (tree) => replace(tree, 'risks/RC-09.md', 'shown_by: [LP-01, VP-26]', 'shown_by: [VP-26]'),
  },
  {
    planted: 'a failure mode of the tip leads nowhere',
    code: 'failure-mode-without-effect',
    record: 'FM-01',
    says: 'snap lets go',
    plant: (tree) => replace(tree, 'risks/FM-01.md', / {4}risks: \[RK-03\]\n/, ''),
  },
  {
    planted: 'the spring is in no failure mode table',
    code: 'failure-mode-item-not-covered',
    record: 'DO-06',
    says: 'FM-01',
    plant: (tree) => replace(tree, 'risks/FM-01.md', / {2}- output: DO-06\n(?: {4}.*\n)+/g, ''),
  },
  {
    planted: 'a failure mode feeds a retired risk',
    code: 'retired-record-linked',
    record: 'FM-01',
    says: 'RK-90',
    plant: (tree) => {
      tree.set(
        'risks/RK-90.md',
        withoutField(read(tree, 'risks/RK-11.md'), 'approvals')
          .replace('id: RK-11', 'id: RK-90')
          .replace('status: approved', 'status: retired'),
      );
      replace(tree, 'risks/FM-01.md', 'risks: [RK-11]', 'risks: [RK-90]');
    },
  },
];

tryFaults('usability engineering and failure modes', faults);

test('a score in a failure mode is refused, and the hint says what counts instead', () => {
  const planted: Tree = new Map(readTree('content'));
  replace(planted, 'risks/FM-01.md', /( {4}failure_mode: snap lets go\n)/, '$1    rpn: 120\n');
  const found = analyse(inputsFrom(planted), []).findings.find((finding) => finding.code === 'unknown-field');
  expect(found?.message).toContain('"rpn"');
  expect(found?.hint).toContain('severity and probability of harm');
});

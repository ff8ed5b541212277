import { replace } from './planted-faults.ts';
import { type RiskFault, tryFaults } from './risk-faults.ts';

const plan = 'plans/DP-01.md';

/** Faults of the design plan and of what is handed in, each with the one finding that it adds. */
const faults: readonly RiskFault[] = [
  {
    planted: 'RV-03 passed its gate with an input not shown, and gives no reason',
    code: 'gate-passed-unmet',
    record: 'RV-03',
    says: 'with "inputs-shown" not met, and gives no reason',
    plant: (tree) =>
      replace(tree, 'reviews/RV-03.md', /(condition: inputs-shown\n {6}met: false\n) {6}reason: .*\n/, '$1'),
  },
  {
    planted: 'the last gate was planned for October and nobody moved it',
    code: 'gate-overdue',
    record: 'DP-01',
    says: 'gate G5 was planned for 2026-10-30',
    plant: (tree) => replace(tree, plan, 'planned: 2026-12-18\n', 'planned: 2026-10-30\n'),
  },
  {
    planted: 'the record of the review no longer names gate G2',
    code: 'gate-review-missing',
    record: 'DP-01',
    says: 'no review passed gate G2, and RV-03 passed G3 on 2026-06-15',
    plant: (tree) => replace(tree, 'reviews/RV-02.md', /^gate:\n(?: .*\n)+/m, ''),
    also: ['gate-overdue'],
  },
  {
    planted: 'a condition of G4 asks for a record type that does not exist',
    code: 'gate-condition-empty',
    record: 'DP-01',
    says: 'record type "risk-controls"',
    plant: (tree) => replace(tree, plan, 'types: [risk-control]', 'types: [risk-controls]'),
  },
  {
    planted: 'nobody answers for verification',
    code: 'stage-without-responsibility',
    record: 'DP-01',
    says: 'the stage "design verification" names nobody',
    plant: (tree) => replace(tree, plan, '    responsible: [test engineer]\n', ''),
  },
];

tryFaults('the design plan and in what is handed in', faults);

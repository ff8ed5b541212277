import { replace, type SingleFault } from './planted-faults.ts';
import { tryFaultsTogether } from './risk-faults.ts';

const plan = 'plans/DP-01.md';
const annexes = 'submissions/SB-01.md';
const premarket = 'submissions/SB-03.md';

/** Faults of the design plan. */
const ofThePlan: readonly SingleFault[] = [
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

/** Faults of the folders that are handed in. */
const ofSubmissions: readonly SingleFault[] = [
  {
    planted: 'a row names a section that the instructions do not have',
    code: 'location-not-found',
    record: 'SB-01',
    says: 'clause 1.1(j) names section 12 of DOC-10, which has no such section',
    plant: (tree) => replace(tree, annexes, 'section 1, picture with the parts', 'section 12, picture'),
  },
  {
    planted: 'nothing is said of medicinal substances',
    code: 'submission-row-missing',
    record: 'SB-01',
    says: 'says nothing of row 6.2(a) of eu-mdr-annex-2',
    plant: (tree) => replace(tree, annexes, / {6}- clause: 6\.2\(a\)\n {8}empty: .*\n/, ''),
  },
  {
    planted: 'the analysis of benefit and risk bears an approval from before the decision that it shows',
    code: 'document-older-than-records',
    record: 'SB-01',
    says: 'hands in DOC-23, which was approved on 2026-11-02 and shows what was approved later: BR-01 of ',
    plant: (tree) => replace(tree, 'documents/DOC-23.md', 'date: 2026-11-17', 'date: 2026-11-02'),
  },
  {
    planted: 'an entry has the number of another edition of the table',
    code: 'submission-row-wrong',
    record: 'SB-03',
    says: 'an entry for row 7.9',
    plant: (tree) => replace(tree, premarket, 'clause: "7.4"', 'clause: "7.9"'),
    also: ['submission-row-missing'],
  },
  {
    planted: 'a row both has content and says why it has none',
    code: 'submission-row-wrong',
    record: 'SB-01',
    says: 'row 6.2(d) has content and a reason why it has none',
    plant: (tree) =>
      replace(
        tree,
        annexes,
        '      - clause: 6.2(d)\n',
        '      - clause: 6.2(d)\n        empty: There are no such substances.\n',
      ),
  },
  {
    planted: 'the validation report is a draft again',
    code: 'submission-document-unready',
    record: 'SB-01',
    says: 'SB-01 hands in DOC-22, which is a draft',
    plant: (tree) => replace(tree, 'documents/DOC-22.md', 'status: approved', 'status: draft'),
  },
  {
    planted: 'the failed result is named as the answer to a row',
    code: 'submission-record-in-doubt',
    record: 'SB-01',
    says: 'SB-01 answers row 6.2(e) by VR-09A, which is failed',
    plant: (tree) => replace(tree, annexes, '{ record: AN-14 }', '{ record: VR-09A }'),
  },
  {
    planted: 'raw data are asked for by a type that does not exist',
    code: 'submission-content-wrong',
    record: 'SB-03',
    says: 'the raw data of "verification-records"',
    plant: (tree) =>
      replace(tree, premarket, 'raw_data: verification-record }', 'raw_data: verification-records }'),
  },
  {
    planted: 'a report is asked for by the id of the protocol',
    code: 'submission-content-wrong',
    record: 'SB-02',
    says: 'row CH3.05.06 asks for DOC-20 for VP-17, for which it is not written',
    plant: (tree) => replace(tree, 'submissions/SB-02.md', 'for: [VR-17]', 'for: [VP-17]'),
  },
];

/** Faults of questions, answers and of what is declared. */
const ofAnswers: readonly SingleFault[] = [
  {
    planted: 'the folder was handed in a week before it was approved',
    code: 'answer-not-approved',
    record: 'SB-01',
    says: 'SB-01 was handed in on 2026-11-11, and its text was first approved on 2026-11-18',
    plant: (tree) =>
      replace(tree, annexes, 'planned: 2026-12-18\n', 'planned: 2026-12-18\nhanded_in: 2026-11-11\n'),
  },
  {
    planted: 'the day for the answer has passed',
    code: 'authority-question-overdue',
    record: 'AQ-03',
    says: 'was due on 2026-11-19 and is open on 2026-11-20',
    plant: (tree) => replace(tree, 'questions/AQ-03.md', 'due: 2026-12-11', 'due: 2026-11-19'),
  },
  {
    planted: 'an answer was sent and does not say why nothing was changed',
    code: 'answer-incomplete',
    record: 'AQ-01',
    says: 'names neither what was changed nor why nothing was',
    plant: (tree) => replace(tree, 'questions/AQ-01.md', /^no_change: .*\n/m, ''),
  },
  {
    planted: 'an answer names a revision that was never issued',
    code: 'answer-revision-differs',
    record: 'AQ-02',
    says: 'says that DOC-02 was changed to revision 3; it is 2 now',
    plant: (tree) => replace(tree, 'questions/AQ-02.md', 'to: "2"', 'to: "3"'),
  },
  {
    planted: 'an answer was sent before anybody had approved it',
    code: 'answer-not-approved',
    record: 'AQ-02',
    says: 'AQ-02 was answered on 2026-11-10, and its text was first approved on 2026-11-17',
    plant: (tree) => replace(tree, 'questions/AQ-02.md', 'answered: 2026-11-18', 'answered: 2026-11-10'),
  },
  {
    planted: 'the address of the maker is gone',
    code: 'declaration-item-missing',
    record: 'DOC-21',
    says: 'item 1 of the declaration lacks the address',
    plant: (tree) => replace(tree, 'plinth.yaml', / {2}address: 12 Harrow Lane.*\n/, ''),
  },
  {
    planted: 'the notified body has no number, and nothing says why',
    code: 'declaration-item-missing',
    record: 'DOC-21',
    says: 'item 8 of the declaration lacks the identification number of the notified body',
    plant: (tree) => replace(tree, 'plinth.yaml', / {4}- \{ what: notified_body_number, .*\n/, ''),
  },
  {
    planted: 'the declaration names another procedure than the classification',
    code: 'declaration-procedure-differs',
    record: 'CL-01',
    says: 'the procedure "Annex XI part A", and CL-01 has chosen "Annex IX chapters I and III"',
    plant: (tree) =>
      replace(tree, 'plinth.yaml', 'procedure: Annex IX chapters I and III', 'procedure: Annex XI part A'),
  },
];

tryFaultsTogether('the design plan and in what is handed in', {
  'in the design plan': ofThePlan.filter(({ also }) => !also),
  'in the reviews of the plan': ofThePlan.filter(({ also }) => also),
  'in submissions': ofSubmissions,
  'in answers and declarations': ofAnswers,
});

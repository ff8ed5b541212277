import type { DataFileChange } from './compare-data-files.ts';
import { compareDataFiles } from './compare-data-files.ts';
import { compareRecords, type RecordChange } from './compare-records.ts';
import { compareValues, type ValueChange } from './compare-values.ts';
import type { CompiledText } from './document-texts.ts';
import { type DocumentToIssue, documentsToIssue } from './documents-to-issue.ts';
import type { FileState } from './file-state.ts';
import { type LabelTouched, labelsTouched } from './labels-touched.ts';
import { type LapsedApproval, lapsedApprovals } from './lapsed-approvals.ts';
import { type RequirementToReview, requirementsToReview } from './requirements-to-review.ts';
import { type RiskToEvaluate, risksToEvaluate } from './risks-to-evaluate.ts';
import { type StandingChange, standingChanges } from './standing-changes.ts';
import { type TestToRepeat, testsToRepeat } from './tests-to-repeat.ts';

/** A state that was compared, in words: a revision with its commit, the work tree, a folder. */
export interface StateName {
  readonly name: string;
  readonly commit?: string;
  readonly date?: string;
}

export interface ImpactInputs {
  readonly before: FileState;
  readonly after: FileState;
  readonly beforeName: StateName;
  readonly afterName: StateName;
  /** Texts of the compiled documents by id. */
  readonly textsBefore: ReadonlyMap<string, CompiledText>;
  readonly textsAfter: ReadonlyMap<string, CompiledText>;
  /** What kept the comparison from seeing everything. */
  readonly unseen: readonly string[];
}

/** What a change from one state of a technical file to another means for what rests on it. */
export interface Impact {
  readonly before: StateName;
  readonly after: StateName;
  readonly unseen: readonly string[];
  /** Settings of plinth.yaml that differ. */
  readonly settings: readonly ValueChange[];
  readonly records: readonly RecordChange[];
  readonly dataFiles: readonly DataFileChange[];
  readonly approvals: readonly LapsedApproval[];
  readonly tests: readonly TestToRepeat[];
  readonly risks: readonly RiskToEvaluate[];
  readonly requirements: readonly RequirementToReview[];
  readonly documents: readonly DocumentToIssue[];
  readonly labels: readonly LabelTouched[];
  readonly standing: readonly StandingChange[];
}

/** True where nothing differs that anybody would have to act on. */
export const isWithoutImpact = (impact: Impact): boolean =>
  [
    impact.settings,
    impact.records,
    impact.dataFiles,
    impact.approvals,
    impact.tests,
    impact.risks,
    impact.requirements,
    impact.documents,
    impact.labels,
    impact.standing,
  ].every((list) => list.length === 0);

/** Compares two states of a technical file and follows what the differences touch. */
export const assessImpact = (inputs: ImpactInputs): Impact => {
  const { before, after } = inputs;
  const records = compareRecords(before, after);
  const dataFiles = compareDataFiles(before, after);
  const settings = compareValues(
    { value: before.project.fields, written: (path) => before.project.yaml.written(path) },
    { value: after.project.fields, written: (path) => after.project.yaml.written(path) },
  );
  const tests = testsToRepeat(before, after, records);
  return {
    before: inputs.beforeName,
    after: inputs.afterName,
    unseen: inputs.unseen,
    settings,
    records,
    dataFiles,
    approvals: lapsedApprovals(before, after),
    tests,
    risks: risksToEvaluate(before, after, records, tests),
    requirements: requirementsToReview(after, records, tests),
    documents: documentsToIssue(inputs.textsBefore, inputs.textsAfter),
    labels: labelsTouched(after, records, settings),
    standing: standingChanges(before, after),
  };
};

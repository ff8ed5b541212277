import type { Explanation } from '../findings/explanation.ts';
import type { Finding, Level } from '../findings/finding.ts';
import type { ReportContent } from './report-text/write-report-text.ts';

/** What the forms for machines need besides the report itself. */
export interface MachineReport {
  readonly content: ReportContent;
  /** Put before every path, so that the service finds the file from the root of the repository; empty for none. */
  readonly prefix: string;
  readonly toolVersion: string;
  /** Explanations of all finding codes. */
  readonly rules: ReadonlyMap<string, Explanation>;
  /** A short text that stays the same through edits of the file, another one for each finding of the report. */
  readonly printOf: (finding: Finding) => string;
  /** Lowest level that fails the run. */
  readonly failOn: Level;
}

/** Path of a file from the root of the repository. */
export const pathFrom = (prefix: string, file: string): string =>
  prefix === '' || prefix === '.' ? file : `${prefix}/${file}`;

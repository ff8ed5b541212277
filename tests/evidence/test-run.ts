import type { EvidenceResult } from '../../src/evidence/result.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom } from '../support/technical-file.ts';

/** What one verification in memory consists of: pieces of YAML, and the raw data. */
export interface TestRun {
  /** Entries of `acceptance`. */
  readonly acceptance: string;
  readonly sampling: string;
  readonly csv: string | Uint8Array;
  /** Fields below `data` beside the file and the columns. */
  readonly data?: string;
  readonly columns?: string;
  /** Further fields of the record. */
  readonly record?: string;
  readonly file?: string;
}

const front = (fields: string, body: string): string => `---\n${fields.trim()}\n---\n${body}`;

export const filesOf = (run: TestRun): Map<string, string | Uint8Array> =>
  new Map<string, string | Uint8Array>([
    ['plinth.yaml', 'device: { name: Test device, maker: Harrow Lane Instruments }\n'],
    [
      'VP-01.md',
      front(
        `id: VP-01\ntype: verification-protocol\ntitle: A protocol\nstatus: draft\nverifies: [DI-01]\nmethod: test\ncondition: fresh\nacceptance:\n${run.acceptance
          .trim()
          .split('\n')
          .map((line) => `  - ${line.trim()}`)
          .join('\n')}\nsampling: { ${run.sampling}, rationale: For a test. }`,
        '## Purpose\n\n## Procedure\n',
      ),
    ],
    [
      'records/VR-01.md',
      front(
        `id: VR-01\ntype: verification-record\ntitle: A record\nstatus: draft\nreports: VP-01\nexecuted: { from: 2026-06-01, to: 2026-06-02 }\ndata:\n  file: ${run.file ?? 'data/VR-01.csv'}\n  sha256: "${'0'.repeat(64)}"\n${run.data ? `  ${run.data}\n` : ''}  columns:\n    - ${run.columns ?? '{ characteristic: force, column: force }'}\nresult: pass\n${run.record ?? ''}`,
        '## Conclusion\n',
      ),
    ],
    ['records/data/VR-01.csv', run.csv],
  ]);

/** The evaluation of the record, through reading, graph and evidence. */
export const evaluated = (run: TestRun): EvidenceResult => {
  const { evidence, findings } = analyse(inputsFrom(filesOf(run)), []);
  const result = evidence.get('VR-01');
  if (!result)
    throw new Error(findings.map((finding) => `${finding.place.file} ${finding.message}`).join('\n'));
  return result;
};

export const valueOf = (result: EvidenceResult, key: string, characteristic = 0): number | undefined =>
  result.characteristics[characteristic]?.values.find((value) => value.key === key)?.value;

/** A CSV with one reading for each unit. */
export const csvOf = (values: readonly (number | string)[], heading = 'force [N]'): string =>
  `unit,${heading}\n${values.map((value, index) => `U${index + 1},${value}\n`).join('')}`;

/** Readings with exactly this mean and standard deviation (n - 1), as normal as a sample can be: quantiles at (i - 0.5) / n. */
export const normalReadings = (count: number, mean: number, standardDeviation: number): readonly number[] => {
  const scores = Array.from({ length: count }, (_, index) => logisticScore((index + 0.5) / count));
  const centre = scores.reduce((sum, score) => sum + score, 0) / count;
  const spread = Math.sqrt(scores.reduce((sum, score) => sum + (score - centre) ** 2, 0) / (count - 1));
  return scores.map((score) => mean + ((score - centre) / spread) * standardDeviation);
};

/** Near enough to the normal quantile for a sample that no test of normality doubts (Tukey lambda, 0.14; Tukey 1962). */
const logisticScore = (share: number): number => (share ** 0.14 - (1 - share) ** 0.14) / 0.14;

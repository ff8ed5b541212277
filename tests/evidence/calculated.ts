import type { EvidenceResult } from '../../src/evidence/result.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom } from '../support/technical-file.ts';

const output = (id: string, characteristics: string): string =>
  `---\nid: ${id}\ntype: design-output\ntitle: An output\nstatus: draft\nsatisfies: [DI-01]\nkind: part\nrevision: A\ncharacteristics:\n${characteristics
    .trim()
    .split('\n')
    .map((line) => `  - ${line.trim()}`)
    .join('\n')}\n---\n`;

/** The evaluation of one analysis, through reading, graph and evidence. Throws with the findings where the record is not sound. */
export const calculated = (
  calculation: string,
  acceptance = '',
  outputs: readonly [string, string][] = [],
  log?: { readonly csv: string; readonly data?: string },
): EvidenceResult => {
  const files = new Map<string, string>([
    ['plinth.yaml', 'device: { name: Test device, maker: Harrow Lane Instruments }\n'],
    [
      'AN-01.md',
      `---\nid: AN-01\ntype: analysis\ntitle: An analysis\nstatus: draft\nverifies: [DI-01]\ncalculation: { ${calculation} }\n${acceptance ? `acceptance: [${acceptance}]\n` : ''}${log ? `data: { file: log.csv, sha256: "${'0'.repeat(64)}"${log.data ? `, ${log.data}` : ''} }\n` : ''}result: pass\n---\n## Conclusion\n`,
    ],
    ...(log ? [['log.csv', log.csv] as const] : []),
    ...outputs.map(([id, characteristics]): [string, string] => [`${id}.md`, output(id, characteristics)]),
  ]);
  const { evidence, findings } = analyse(inputsFrom(files), []);
  const result = evidence.get('AN-01');
  if (!result)
    throw new Error(findings.map((finding) => `${finding.place.file} ${finding.message}`).join('\n'));
  return result;
};

/** A named value of the first characteristic. */
export const value = (result: EvidenceResult, key: string): number => {
  const found = result.characteristics[0]?.values.find((each) => each.key === key);
  if (!found) throw new Error(`no value ${key}`);
  return found.value;
};

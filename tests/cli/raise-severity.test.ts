import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { projectRoot } from '../support/technical-file.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

interface Finding {
  readonly code: string;
  readonly message: string;
  readonly hint: string;
  readonly records: readonly string[];
  readonly data?: { readonly path?: readonly string[] };
}

/** A quality lead raises severities in a copy of the demonstration file and asks what is now too small. */
const tooSmall = (severities: Readonly<Record<string, string>>): readonly Finding[] => {
  const folder = join(emptyFolder(), 'file');
  cpSync(join(projectRoot, 'content'), folder, { recursive: true });
  for (const [risk, severity] of Object.entries(severities)) {
    const path = join(folder, 'risks', `${risk}.md`);
    writeFileSync(path, readFileSync(path, 'utf8').replace(/^severity: S\d$/m, `severity: ${severity}`));
  }
  const { out } = runPlinth(folder, ['check', '--format', 'json']);
  return (JSON.parse(out) as { findings: Finding[] }).findings.filter(
    (finding) => finding.code === 'sampling-below-policy',
  );
};

describe('a severity that is raised', () => {
  test('as the file stands, every protocol is large enough', () => {
    expect(tooSmall({})).toEqual([]);
  });

  test('names each protocol that is now too small, the way from the risk, and the smallest plan', () => {
    const found = tooSmall({ 'RK-04': 'S4' });
    expect(found.map((finding) => finding.records[0])).toEqual(['VP-03', 'VP-06']);
    const [byMeasurement, byCount] = found;
    expect(byMeasurement?.message).toBe(
      'VP-03 plans 95/95 with 30 units, the sampling policy asks for 95/99 (severity S4: RK-04 → DI-03 → VP-03)',
    );
    expect(byMeasurement?.hint).toMatch(
      /the smallest plan is 9 units with the mean and spread of VR-03, or 299 units without failures\./,
    );
    // 299 = ln(0.05) / ln(0.99), rounded up: common practice, no source.
    expect(byCount?.hint).toMatch(/the smallest plan is 299 units without failures\./);
    expect(byCount?.data?.path?.slice(0, 2)).toEqual(['RK-04', 'DI-06']);
  });

  test('a severity that is lowered asks for nothing more', () => {
    expect(tooSmall({ 'RK-04': 'S2' })).toEqual([]);
  });
});

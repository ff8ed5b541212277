import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runChecks } from '../../src/checks/check.ts';
import { checks } from '../../src/checks/index.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom, projectRoot } from '../support/technical-file.ts';
import { readCases } from './markdown-cases.ts';

const folder = join(projectRoot, 'tests/checks');
const sources = readdirSync(join(projectRoot, 'src/checks')).filter(
  (name) => !['check.ts', 'held-back.ts', 'index.ts'].includes(name) && name.endsWith('.ts'),
);

describe('the registry of checks', () => {
  test('holds every check file once, in alphabetical order, under its own code', () => {
    const codes = checks.map((check) => check.code);
    expect(codes).toEqual([...codes].sort());
    expect(new Set(codes).size).toBe(codes.length);
    expect(codes).toEqual(sources.map((name) => name.replace('.ts', '')).sort());
  });

  test.each(checks.map((check) => [check.code, check] as const))('%s explains itself', (_, check) => {
    expect(check.code).toMatch(/^[a-z][a-z0-9]*(-[a-z0-9]+)+$/);
    expect(check.title).not.toMatch(/\.$/);
    expect(check.basis.length).toBeGreaterThan(5);
    expect(check.explain.split('\n\n').length).toBeGreaterThanOrEqual(2);
    expect(check.explain.length).toBeGreaterThan(120);
  });
});

describe.each(checks.map((check) => [check.code, check] as const))('%s', (code, check) => {
  const path = join(folder, `${code}.md`);

  test('has a suite with passing and failing cases', () => {
    expect(existsSync(path), `tests/checks/${code}.md is missing`).toBe(true);
    const cases = readCases(path);
    expect(cases.some((each) => each.passes)).toBe(true);
    expect(cases.some((each) => !each.passes)).toBe(true);
  });

  if (!existsSync(path)) return;
  test.each(
    readCases(path).map((each) => [`${each.passes ? 'passes' : 'fails'}: ${each.title}`, each] as const),
  )('%s', (_, { files, passes, expected, signatures }) => {
    const analysis = analyse({ ...inputsFrom(files), ...(signatures ? { signatures } : {}) }, []);
    const reading = analysis.findings.map(
      (finding) => `${finding.place.file}:${finding.place.line} ${finding.code} ${finding.message}`,
    );
    expect(reading, 'the records of a case are sound').toEqual([]);
    const { findings, reports } = runChecks([check], analysis);
    expect(reports[0]?.examined, 'the check must have examined something').toBeGreaterThan(0);
    const found = findings.map(
      (finding) =>
        `${finding.place.file}:${finding.place.line} ${finding.records[0] ?? '-'} ${finding.message}`,
    );
    if (passes) expect(found).toEqual([]);
    else {
      expect(expected.length, 'a failing case lists its findings').toBeGreaterThan(0);
      expect(found).toEqual(expected);
      for (const finding of findings) expect(finding.hint, 'every finding says what to do').toBeTruthy();
    }
  });
});

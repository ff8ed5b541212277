import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/index.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import type { Finding } from '../../src/findings/finding.ts';
import { analyse } from '../../src/pipeline.ts';
import { compileDocuments } from '../../src/views/compile-document.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import type { SingleFault } from './planted-faults.ts';
import { seal, type Tree } from './seal.ts';

const clean: Tree = new Map(readTree('content'));
const compile = await createMarkdownCompiler();

const keyOf = ({ code, message }: Finding): string => `${code}: ${message}`;

/** What is found in a tree, of any level, and not in the clean file. */
const findingsOf = (tree: Tree, ...without: readonly string[]): readonly Finding[] =>
  allFindingsOf(tree, ...without).filter((finding) => !stands.has(keyOf(finding)));

const allFindingsOf = (tree: Tree, ...without: readonly string[]): readonly Finding[] => {
  const analysis = analyse(
    inputsFrom(tree),
    checks.filter((check) => !without.includes(check.code)),
  );
  // No document knows of a check, so they need not be compiled again without one.
  if (without.length > 0) return analysis.findings;
  const documents = compileDocuments({ ...analysis, waived: analysis.waivers.waived }, compile);
  return [...analysis.findings, ...documents.flatMap((document) => document.findings)];
};

const say = (finding: Finding): string =>
  `${finding.place.file}:${finding.place.line} ${finding.code}: ${finding.message}`;

const stands: ReadonlySet<string> = new Set(allFindingsOf(clean).map(keyOf));

/** Plants each fault in the clean file, alone, and expects its one finding. */
export const tryFaults = (title: string, faults: readonly SingleFault[]): void => {
  test('the demonstration file has no finding of these checks', () => {
    const codes = new Set(faults.map((fault) => fault.code));
    expect(
      allFindingsOf(clean)
        .filter((finding) => codes.has(finding.code))
        .map(say),
    ).toEqual([]);
  });

  describe(`a fault planted in ${title} gives its finding and nothing unrelated`, () => {
    test.each(faults.map((fault) => [fault.planted, fault] as const))('%s', (_, fault) => {
      const planted: Tree = new Map(clean);
      fault.plant(planted);
      const tree = seal(planted);
      const also = new Set(fault.also ?? []);
      const findings = findingsOf(tree);
      const own = findings.filter((finding) => !also.has(finding.code));
      expect([...new Set(own.map((finding) => finding.code))], findings.map(say).join('\n')).toEqual([
        fault.code,
      ]);
      const meant = own.filter((finding) => (finding.records[0] ?? '') === fault.record);
      expect(meant.map((finding) => `${finding.message} ${finding.hint}`).join('\n')).toContain(fault.says);
      expect(new Set(findings.map((finding) => finding.code)), 'what follows from it').toEqual(
        new Set([fault.code, ...also]),
      );
      expect(
        findingsOf(tree, fault.code).filter((finding) => !also.has(finding.code)),
        'without its check the fault goes unseen',
      ).toEqual([]);
    });
  });
};

/**
 * Plants the faults of each group in the clean file together, and expects the one finding of each and no other. For
 * faults that have nothing to do with each other: a fault that hid or repeated another one would be seen.
 */
export const tryFaultsTogether = (
  title: string,
  groups: Readonly<Record<string, readonly SingleFault[]>>,
): void => {
  test('the demonstration file has no finding of these checks', () => {
    const codes = new Set(Object.values(groups).flatMap((faults) => faults.map((fault) => fault.code)));
    expect([...stands].filter((key) => codes.has(key.slice(0, key.indexOf(':'))))).toEqual([]);
  });

  describe(`each fault planted in ${title} gives its finding and nothing unrelated`, () => {
    test.each(Object.entries(groups))('%s', (_, faults) => {
      const planted: Tree = new Map(clean);
      for (const fault of faults) fault.plant(planted);
      const tree = seal(planted);
      const also = new Set(faults.flatMap((fault) => fault.also ?? []));
      const isOf = (fault: SingleFault, finding: Finding): boolean =>
        finding.code === fault.code &&
        (finding.records[0] ?? '') === fault.record &&
        `${finding.message} ${finding.hint}`.includes(fault.says);
      const findings = findingsOf(tree);
      const found = (fault: SingleFault) => findings.filter((finding) => isOf(fault, finding)).length;
      expect(
        faults.filter((fault) => found(fault) !== 1).map(({ planted }) => planted),
        findings.map(say).join('\n'),
      ).toEqual([]);
      expect(
        findings
          .filter((finding) => !also.has(finding.code) && !faults.some((fault) => isOf(fault, finding)))
          .map(say),
        'unrelated findings',
      ).toEqual([]);
      const codes = faults.map((fault) => fault.code);
      expect(
        findingsOf(tree, ...codes)
          .filter((finding) => !also.has(finding.code))
          .map(say),
        'without their checks the faults go unseen',
      ).toEqual([]);
    });
  });
};

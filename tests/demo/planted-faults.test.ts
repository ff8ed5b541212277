import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/index.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import type { Finding } from '../../src/findings/finding.ts';
import { analyse } from '../../src/pipeline.ts';
import { compileDocuments } from '../../src/views/compile-document.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { plantedFaults } from './planted-faults.ts';
import { seal, type Tree } from './seal.ts';

const clean: Tree = new Map(readTree('content'));
const compile = await createMarkdownCompiler();

const errorsOf = (tree: Tree, without?: string): readonly Finding[] => {
  const analysis = analyse(
    inputsFrom(tree),
    checks.filter((check) => check.code !== without),
  );
  const documents = compileDocuments({ ...analysis, waived: analysis.waivers.waived }, compile);
  return [...analysis.findings, ...documents.flatMap((document) => document.findings)].filter(
    (finding) => finding.level === 'error',
  );
};

const say = (finding: Finding): string =>
  `${finding.place.file}:${finding.place.line} ${finding.code}: ${finding.message}`;

describe('the demonstration file', () => {
  test('has the parts that the scenario names', () => {
    const { graph } = analyse(inputsFrom(clean), []);
    const count = (type: string): number =>
      [...graph.records.values()].filter((record) => record.type === type).length;
    expect({
      needs: count('user-need'),
      inputs: count('design-input'),
      outputs: count('design-output'),
      risks: count('risk'),
      controls: count('risk-control'),
    }).toEqual({ needs: 14, inputs: 28, outputs: 13, risks: 12, controls: 16 });
  });

  test('is clean: no error, and every need, input, risk and control is shown', () => {
    expect(errorsOf(clean).map(say)).toEqual([]);
    const { standing, graph } = analyse(inputsFrom(clean), []);
    const open = [...standing].filter(
      ([id, each]) =>
        ['user-need', 'design-input', 'risk', 'risk-control'].includes(graph.record(id)?.type ?? '') &&
        each.state !== 'passed',
    );
    expect(open).toEqual([]);
  });

  test('every check examines something in it, but for those that a clean file gives nothing to', () => {
    const idle = analyse(inputsFrom(clean))
      .reports.filter((report) => report.examined === 0)
      .map((report) => report.code);
    // A clean file has no exclusion without a deviation to look at, no severity that control lowered, no field data of the device
    // itself, and no waiver; this one is not in signed mode
    // and has no rules of its own.
    expect(idle).toEqual([
      'approval-entered-later',
      'approval-not-signed',
      'approval-signed-by-another',
      'criteria-changed-after-analysis',
      'equipment-found-out-of-tolerance',
      'severity-lowered-without-reason',
      'signatures-not-checked',
      'standard-transition-over',
      'surveillance-overdue',
      'tightening-without-effect',
      'trace-rule-not-met',
      'trace-rule-unusable',
      'undocumented-exclusion',
      'variant-not-covered',
      'waiver-expired',
      'waiver-too-long',
      'waiver-unknown',
    ]);
  });
});

test('an error on a protocol puts the need that rests on it in doubt', () => {
  const loose: Tree = new Map(clean);
  const path = 'verification/VP-09.md';
  loose.set(path, new TextDecoder().decode(readTree('content').get(path)).replace('lower: 30', 'lower: 25'));
  const { standing, findings } = analyse(inputsFrom(seal(loose)));
  expect(findings.filter((finding) => finding.level === 'error').map((finding) => finding.code)).toEqual([
    'acceptance-looser-than-input',
  ]);
  expect(standing.get('UN-08')).toMatchObject({ state: 'in doubt', because: ['UN-08', 'DI-09', 'VP-09'] });
});

describe('a planted fault gives its finding and no other error', () => {
  test.each(plantedFaults.map((fault) => [`${fault.number}: ${fault.planted}`, fault] as const))(
    '%s',
    (_, fault) => {
      const planted: Tree = new Map(clean);
      fault.plant(planted);
      const tree = fault.signed === false ? planted : seal(planted);
      const errors = errorsOf(tree);
      expect(
        errors.map((finding) => finding.code),
        errors.map(say).join('\n'),
      ).toEqual([fault.code]);
      expect(errors[0]?.records[0]).toBe(fault.record);
      expect(errors[0]?.message).toContain(fault.says);
      expect(errorsOf(tree, fault.code), 'without its check the fault goes unseen').toEqual([]);
    },
  );
});

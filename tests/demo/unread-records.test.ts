import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/index.ts';
import type { Finding } from '../../src/findings/finding.ts';
import { type Analysis, analyse } from '../../src/pipeline.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { edit, replace } from './planted-faults.ts';
import { seal, type Tree } from './seal.ts';

const clean: Tree = readTree('content');

const analysed = (plant: (tree: Tree) => void): Analysis => {
  const tree: Tree = new Map(clean);
  plant(tree);
  return analyse(inputsFrom(seal(tree)), checks);
};

const say = ({ code, place, message }: Finding): string =>
  `${place.file}:${place.line} ${code}: ${message}`.slice(0, 160);

/** Records of types whose absence other checks find. */
const awaited = [
  'analyses/AN-21.md',
  'biology/BE-01.md',
  'classification/CL-01.md',
  'design-inputs/DI-05.md',
  'risks/SP-01.md',
  'standards/ST-01.md',
  'validation/LP-01.md',
  'verification/VP-15.md',
];

describe('a record that cannot be read has its own finding, and what seems to be missing is held back', () => {
  test.each(awaited)('%s: a value that its schema does not have', (path) => {
    const { findings, heldBack } = analysed((tree) =>
      edit(tree, path, (text) => text.replace(/^status: .*$/m, 'status: aproved')),
    );
    expect(findings.map(say)).toEqual([
      expect.stringMatching(`${path}:\\d+ wrong-value: status is "aproved"`),
    ]);
    expect(heldBack).toBeGreaterThan(0);
  });

  test.each(['verification/VP-15.md', 'requirements/GR-10.md', 'design-inputs/DI-09.md'])(
    '%s: a line that is no YAML',
    (path) => {
      const { findings, heldBack } = analysed((tree) =>
        edit(tree, path, (text) => text.replace(/^status: .*$/m, 'status: approved: yes')),
      );
      expect(findings.map(say)).toEqual([expect.stringMatching(`${path}:\\d+ broken-front-matter`)]);
      expect(heldBack).toBeGreaterThan(0);
    },
  );

  test.each([
    ['a part of the declaration', 'what: srn', 'what: snr', 'wrong-value: declaration.left_out[1].what'],
    ['an identifier', 'gtin: "09520123456788"', 'gtin: 09520123456788', 'wrong-value: device.identifiers[1]'],
    ['the roles of approvals', 'approval_roles:', 'approval_rolls:', 'unknown-field: unknown field'],
  ])('plinth.yaml: %s', (_, before, after, says) => {
    const { findings } = analysed((tree) => replace(tree, 'plinth.yaml', before, after));
    expect(findings.map(say)).toEqual([expect.stringContaining(says)]);
  });

  test('what is missing elsewhere is still found', () => {
    const codes = analysed((tree) => {
      edit(tree, 'verification/VP-01.md', (text) => text.replace(/^status: .*$/m, 'status: aproved'));
      tree.delete('verification/VP-20.md');
      tree.delete('design-inputs/DI-05.md');
    }).findings.map(({ code, records }) => `${code} ${records[0]}`);
    expect(codes).toContain('wrong-value VP-01');
    expect(codes).toContain('input-without-verification DI-20');
    expect(codes).toContain('claim-evidence-unproven CM-04');
    expect(codes).toContain('need-without-input UN-05');
  });

  test('where people have waived what is wrong with it, nothing is held back', () => {
    const { findings, heldBack } = analysed((tree) => {
      edit(tree, 'classification/CL-01.md', (text) => text.replace(/^status: .*$/m, 'status: aproved'));
      edit(
        tree,
        'plinth.yaml',
        (text) =>
          `${text}\nwaivers:\n  - { code: wrong-value, record: CL-01, reason: For this test., role: quality lead, date: 2026-11-01, expires: 2027-01-01 }\n`,
      );
    });
    expect(heldBack).toBe(0);
    expect(findings.map(({ code }) => code)).toContain('classification-missing');
  });
});

describe('a faulty row of a legal requirement leaves the other rows judged', () => {
  const path = 'requirements/GR-10.md';
  test.each([
    [
      'a word for a method',
      'method: [design, inspection]',
      'method: [desing, inspection]',
      'clauses[1].method[1]',
    ],
    [
      'an answer',
      '"10.1(a)"\n    applicable: true',
      '"10.1(a)"\n    applicable: yess',
      'clauses[2].applicable',
    ],
    ['a row without its clause', '  - clause: "10.1(c)"\n    applicable', '  - applicable', 'clauses[4]'],
    [
      'a field',
      '    reason: The device has no implantable',
      '    reasn: The device has no implantable',
      '"reasn"',
    ],
  ])('%s', (_, before, after, says) => {
    const plant = (tree: Tree): void => replace(tree, path, before, after);
    const { findings } = analysed(plant);
    expect(findings.map(say)).toEqual([
      expect.stringMatching(`${path}:\\d+ (?:wrong-value|missing-field|unknown-field): `),
    ]);
    expect(findings[0]?.message).toContain(says);
  });

  test('a second fault in a later row stands at the line of that row', () => {
    const both = analysed((tree) => {
      replace(tree, path, 'method: [design, inspection]', 'method: [desing, inspection]');
      edit(tree, path, (text) =>
        text.replace(/^( {2}- clause: "10.1\(g\)"\n(?: {4}.*\n)*?) {4}evidence:.*\n/m, '$1'),
      );
    }).findings;
    expect(both.map(({ code }) => code).sort()).toContain('requirement-without-evidence');
    const found = both.find(({ code }) => code === 'requirement-without-evidence');
    expect(found?.message).toContain('10.1(g)');
    const lines = new TextDecoder().decode(clean.get(path) as Uint8Array).split('\n');
    const row = lines.findIndex((line) => line.includes('"10.1(g)"')) + 1;
    expect(found?.place.line).toBeGreaterThanOrEqual(row - 1);
    expect(found?.place.line).toBeLessThanOrEqual(row + 3);
  });
});

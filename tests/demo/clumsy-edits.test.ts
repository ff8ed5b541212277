import { expect, test } from 'vitest';
import { checks } from '../../src/checks/index.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { replace } from './planted-faults.ts';
import { seal, type Tree } from './seal.ts';

/**
 * Edits as they are made in a hurry: another case, a blank too many, a row that was copied. Each gives one finding at
 * its line, and what would only follow from it is not told.
 */

const clean: Tree = readTree('content');

const label = 'design-outputs/DO-08.md';
const gspr = 'requirements/GR-10.md';
const biology = 'biology/BE-01.md';
const conditioning = 'conditioning/CP-01.md';

const edits: readonly (readonly [
  planted: string,
  path: string,
  before: string | RegExp,
  after: string,
  finding: string,
])[] = [
  ['a blank in a clause', gspr, 'clause: "10.1(a)"', 'clause: "10.1 (a)"', 'clause-unknown'],
  ['a table in capitals', gspr, 'table: eu-mdr-annex-1', 'table: EU-MDR-Annex-1', 'clause-unknown'],
  ['a row twice', gspr, /( {2}- clause: "10.1\(c\)"\n(?: {4}.*\n)+)/, '$1$1', 'clause-answered-twice'],
  [
    'an id in small letters',
    gspr,
    'evidence: [DO-11, VR-17, MT-01',
    'evidence: [DO-11, vr-17, MT-01',
    'unknown-link-target',
  ],
  ['a particular in capitals', label, 'clause: 23.2(q)', 'clause: 23.2(Q)', 'clause-unknown'],
  [
    'a particular twice',
    label,
    /( {2}- clause: 23.2\(q\)\n {4}content: .*\n)/,
    '$1$1',
    'label-particular-twice',
  ],
  [
    'a wording without its underscore',
    label,
    '  shelf_life: 3 years',
    '  shelflife: 3 years',
    'phrase-differs',
  ],
  [
    'a group in capitals',
    biology,
    'groups: [tip, graft path]\n    addressed_by: data',
    'groups: [Tip, graft path]\n    addressed_by: data',
    'biological-contact-missing',
  ],
  [
    'a lot that nobody built',
    biology,
    'sterilised: true, lot: L002',
    'sterilised: true, lot: L009',
    'biological-sample-differs',
  ],
  [
    'a node in capitals',
    conditioning,
    'record: VR-10, node: aged,',
    'record: VR-10, node: Aged,',
    'conditioning-node-unknown',
  ],
  ['a draw twice', conditioning, /( {2}- \{ protocol: VP-03,.*\n)/, '$1$1', 'conditioning-draw-twice'],
  [
    'a place that is not there',
    'claims/CM-01.md',
    'stated_in: [DO-09, DOC-28]',
    'stated_in: [DO-09, DOC-82]',
    'unknown-link-target',
  ],
];

test.each(edits)('%s', (_, path, before, after, code) => {
  const tree: Tree = new Map(clean);
  if (typeof before === 'string') replace(tree, path, before, after);
  else {
    const text = new TextDecoder().decode(tree.get(path) as Uint8Array);
    expect(text).toMatch(before);
    tree.set(path, text.replace(before, after));
  }
  const { findings } = analyse(inputsFrom(seal(tree)), checks);
  expect(
    findings.map((finding) => finding.code),
    findings.map(({ message }) => message).join('\n'),
  ).toEqual([code]);
  expect(findings[0]?.place.file).toBe(path);
  expect(findings[0]?.place.line).toBeGreaterThan(1);
  expect(findings[0]?.hint).toBeTruthy();
});

test('a gate under another name is told of by the review that held it', () => {
  const tree: Tree = new Map(clean);
  replace(tree, 'plans/DP-01.md', 'gate: G2', 'gate: G-2');
  expect(analyse(inputsFrom(seal(tree)), checks).findings.map(({ code }) => code)).toEqual(['gate-unknown']);
});

test('a mark of a claim in small letters is told of by the document alone', () => {
  const tree: Tree = new Map(clean);
  replace(tree, 'documents/DOC-28.md', ':claim[CM-01]', ':claim[cm-01]');
  expect(analyse(inputsFrom(seal(tree)), checks).findings.map(({ message }) => message)).toEqual([]);
});

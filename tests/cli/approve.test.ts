import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { emptyFolder, type Outcome, runPlinth } from './run-plinth.ts';

const start: Readonly<Record<string, string>> = {
  'plinth.yaml': `device: { name: Granule applicator, maker: Harrow Lane Instruments }
approval_roles:
  "*": [quality lead]
  design-input: [design engineer, quality lead]
independence:
  - { types: [design-input], roles: [design engineer, quality lead] }
`,
  // With a byte-order mark and the line ends of Windows.
  'UN-01.md': `\uFEFF---
id: UN-01
type: user-need
title: One-handed dosing
status: draft   # as yet
needed_by: [dental surgeon]
approvals: []   # none
# nothing below
---
The surgeon can dose with one hand.

## Rationale
The other hand holds the mirror.`.replaceAll('\n', '\r\n'),
  'DI-01.md': `---
id: DI-01
type: design-input
title: "Squeeze force"
status: 'in review'
derives_from: [UN-01]
limits:
    - { characteristic: squeeze force, unit: N, upper: 25 }
method: [test]
---
The squeeze force is low.

## Rationale
A gloved hand tires.
`,
  'DO-01.md': `---
id: DO-01
type: design-output
title: Lever
status: draft
kind: part
satisfies: [DI-01]
revision: A
---
The lever.
`,
  'VP-01.md': `---
id: VP-01
type: verification-protocol
title: Squeeze force, fresh
status: draft
verifies: [DI-01]
method: test
condition: fresh
acceptance:
  - { characteristic: squeeze force, unit: N, upper: 25 }
sampling: { kind: normal-tolerance-interval, confidence: 0.95, reliability: 0.90, size: 30, rationale: "Variables plan." }
---
## Purpose
Show the force.

## Procedure
Squeeze and read.
`,
  'RV-01.md': `---
id: RV-01
type: design-review
title: A review that names nobody
status: retired
stage: design input
date: 2026-01-20
present: [quality lead]
---
## Conclusion
None.
`,
};

const digest = /"[0-9a-f]{64}"/g;
const lead = ['--role', 'quality lead', '--name', 'Brede Falkonet'];
const engineer = ['--role', 'design engineer', '--name', 'Tamsin Oakrill'];

let folder = '';
const read = (name: string): string => readFileSync(join(folder, 'content', name), 'utf8');
const write = (name: string, text: string): void => writeFileSync(join(folder, 'content', name), text);
const change = (name: string, from: string, to: string): void => {
  const before = read(name);
  expect(before).toContain(from);
  write(name, before.replace(from, to));
};
const approve = (...words: readonly string[]): Outcome => runPlinth(folder, ['approve', ...words]);
const check = (): Outcome => runPlinth(folder, ['check']);
const all = (): Readonly<Record<string, string>> =>
  Object.fromEntries(readdirSync(join(folder, 'content')).map((name) => [name, read(name)]));

const refused = ({ code, out, error }: Outcome, ...parts: readonly string[]): void => {
  for (const part of parts) expect(error).toContain(part);
  expect(error).not.toMatch(/^\s+at .*\(|\.ts:\d|node:internal/m);
  expect(out).toBe('');
  expect(code).toBe(2);
};

const done = (outcome: Outcome, ...parts: readonly string[]): void => {
  expect(outcome.error).toBe('');
  for (const part of parts) expect(outcome.out).toContain(part);
  for (const line of outcome.out.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
  expect(outcome.code).toBe(0);
};

beforeEach(() => {
  folder = emptyFolder();
  mkdirSync(join(folder, 'content'));
  for (const [name, text] of Object.entries(start)) write(name, text);
});

/** All three records signed by all roles, on a day in the past. */
const approveAll = (): void => {
  done(approve('UN-01', ...lead, '--date', '2026-01-10'));
  done(approve('DI-01', ...engineer, '--date', '2026-01-11'));
  done(approve('DI-01', ...lead, '--date', '2026-01-12'));
};

describe('from a draft to an approved record, a change, and back', () => {
  test('approve, check clean, change a limit, approve what lapsed, check clean', () => {
    const before = all();
    done(
      approve('UN-01', ...lead, '--date', '2026-01-10'),
      'UN-01 One-handed dosing',
      'status: draft → approved',
      'Approved 1 record.',
    );
    const need = read('UN-01.md');
    expect(need.replace(digest, 'DIGEST')).toBe(
      `\uFEFF---
id: UN-01
type: user-need
title: One-handed dosing
status: approved   # as yet
needed_by: [dental surgeon]
approvals:   # none
    - role: quality lead
      name: Brede Falkonet
      meaning: approved
      date: 2026-01-10
      digest: DIGEST
# nothing below
---
The surgeon can dose with one hand.

## Rationale
The other hand holds the mirror.`
        .replace(/^ {4}- /m, '  - ')
        .replace(/^ {6}/gm, '    ')
        .replaceAll('\n', '\r\n'),
    );

    done(
      approve('DI-01', ...engineer, '--date', '2026-01-11', '--meaning', 'approved as a design input: first'),
      'relies on UN-01',
      'still to approve: quality lead',
    );
    expect(read('DI-01.md')).toContain("status: 'in review'");
    done(approve('DI-01', ...lead, '--date', '2026-01-12'), 'status: in review → approved');
    expect(read('DI-01.md').replace(digest, 'DIGEST')).toBe(`---
id: DI-01
type: design-input
title: "Squeeze force"
status: 'approved'
derives_from: [UN-01]
limits:
    - { characteristic: squeeze force, unit: N, upper: 25 }
method: [test]
approvals:
    - role: design engineer
      name: Tamsin Oakrill
      meaning: "approved as a design input: first"
      date: 2026-01-11
      digest: DIGEST
      relies_on:
        UN-01: DIGEST
    - role: quality lead
      name: Brede Falkonet
      meaning: approved
      date: 2026-01-12
      digest: DIGEST
      relies_on:
        UN-01: DIGEST
---
The squeeze force is low.

## Rationale
A gloved hand tires.
`);
    for (const name of ['plinth.yaml', 'DO-01.md', 'VP-01.md', 'RV-01.md'])
      expect(read(name)).toBe(before[name]);
    const clean = check();
    expect(clean.out).toContain('0 errors');
    expect(clean.code).toBe(0);

    change('DI-01.md', 'upper: 25', 'upper: 24');
    change('VP-01.md', 'upper: 25', 'upper: 24');
    const failing = check();
    expect(failing.code).toBe(1);
    expect(failing.out).toContain('error  approval-lapsed');
    expect(failing.out.replace(/\s+/g, ' ')).toContain('plinth approve --because DI-01 --role ROLE');

    const changed = read('DI-01.md');
    done(approve('--lapsed', ...engineer), 'changed since the approval of 2026-01-11: its own content');
    done(approve('--because', 'DI-01', ...lead), 'Approved 1 record.');
    const again = read('DI-01.md');
    const [head = '', tail = ''] = changed.split('---\nThe squeeze');
    expect(again.startsWith(head)).toBe(true);
    expect(again.endsWith(`---\nThe squeeze${tail}`)).toBe(true);
    expect(check()).toMatchObject({ code: 0 });
  });

  test('approving again what is in force writes nothing', () => {
    approveAll();
    const before = all();
    done(approve('UN-01', ...lead), 'UN-01 is approved already', 'Nothing was left to approve.');
    expect(all()).toEqual(before);
  });

  test('an approval without digests of linked records is given anew', () => {
    approveAll();
    write('DI-01.md', read('DI-01.md').replace(/ {6}relies_on:\n {8}UN-01: .*\n/g, ''));
    expect(check().out).toContain('approval-without-reliance');
    done(approve('DI-01', ...engineer), 'Approved 1 record.');
    done(approve('DI-01', ...lead), 'Approved 1 record.');
    expect(check().out).not.toMatch(/error {2}approval-without-reliance/);
  });
});

describe('several at once', () => {
  test('a record and what it relies on are approved in one call, in any order', () => {
    done(approve('DI-01,UN-01', ...lead), 'Approved 2 records.', 'still to approve: design engineer');
    expect(read('DI-01.md')).toContain("status: 'in review'");
    refused(approve('DO-01', ...lead), 'DO-01 relies on DI-01, which is not approved by design engineer');
    done(approve('DI-01', ...engineer), 'status: in review → approved');
    done(approve('VP-01', 'DO-01', ...lead), 'Approved 2 records.');
    expect(read('DO-01.md')).toContain('status: approved');
    expect(check()).toMatchObject({ code: 0 });
  });

  test('the last role can not approve what rests on a record that other roles have yet to approve', () => {
    refused(
      approve('UN-01', 'DI-01', 'DO-01', ...lead),
      'DO-01 relies on DI-01, which is not approved by design engineer',
      'plinth approve DI-01 --role "design engineer"',
    );
  });

  test('records of which one relies on the other are approved together', () => {
    // The input derives from a legal requirement, whose evidence it is.
    change(
      'plinth.yaml',
      'approval_roles:',
      'clause_tables: [{ table: eu-mdr-annex-1, edition: 2017-05-05 }]\napproval_roles:',
    );
    write(
      'GR-01.md',
      '---\nid: GR-01\ntype: legal-requirement\ntitle: Ergonomic features\nstatus: draft\ntable: eu-mdr-annex-1\nclause: "5"\napplicable: true\nsolution: The force is limited.\nevidence: [DI-01]\n---\n',
    );
    change('DI-01.md', 'derives_from: [UN-01]', 'derives_from: [UN-01, GR-01]');
    done(approve('UN-01', ...lead));
    done(approve('DI-01', ...engineer));
    refused(
      approve('GR-01', ...lead),
      'GR-01 relies on DI-01, which is not approved',
      'plinth approve DI-01 GR-01',
    );
    done(approve('GR-01', 'DI-01', ...lead), 'Approved 2 records.');
    expect(check()).toMatchObject({ code: 0 });
  });

  /** Puts the folder under git and commits what is there, so that it can be told what changed. */
  const commitAll = (): void => {
    const git = (...words: readonly string[]): void => {
      const { status, stderr } = spawnSync(
        'git',
        ['-c', 'user.name=A', '-c', 'user.email=a@example.org', '-c', 'commit.gpgsign=false', ...words],
        { cwd: folder },
      );
      expect(String(stderr)).not.toContain('fatal');
      expect(status).toBe(0);
    };
    git('init', '-q');
    git('add', '-A');
    git('commit', '-qm', 'approved');
  };

  test('a change without technical effect is signed with its reason', () => {
    approveAll();
    commitAll();
    change('UN-01.md', 'can dose', 'is able to dose');
    refused(approve('--because', 'UN-01', '--name', 'Brede Falkonet'), 'several roles', '--role');
    done(
      approve('--because', 'UN-01', ...lead, '--no-effect', 'Wording: "able", no more.'),
      'Approved 2 records.',
    );
    done(approve('--because', 'UN-01', ...engineer, '--no-effect', 'Wording only.'), 'Approved 1 record.');
    for (const name of ['UN-01.md', 'DI-01.md'])
      expect(read(name)).toContain('no_technical_effect: "Wording: \\"able\\", no more."');
    expect(read('DI-01.md')).toContain('meaning: approved again after a change without technical effect');
    expect(check()).toMatchObject({ code: 0 });
  });

  test('git tells what changed, and a limit that moved is no matter of wording', () => {
    approveAll();
    commitAll();
    change('DI-01.md', 'upper: 25', 'upper: 30');
    change('VP-01.md', 'upper: 25', 'upper: 30');
    refused(
      approve('--lapsed', ...lead, '--no-effect', 'A typo.'),
      'limits[squeeze force].upper went from 25 N to 30 N',
      'Leave --no-effect out',
    );
    // Named ids choose among what has lapsed; one that has not is refused.
    refused(approve('UN-01', '--lapsed', ...lead), 'UN-01 by quality lead has not lapsed', 'DI-01');
    done(approve('DI-01', '--lapsed', ...lead), '25 N → 30 N');
  });

  test.each([
    ['a unit', 'DI-01.md', 'unit: N', 'unit: mN', 'limits[squeeze force].unit'],
    ['a method', 'DI-01.md', 'method: [test]', 'method: [inspection]', 'method'],
    ['a limit that is taken out', 'DI-01.md', ', upper: 25', ', lower: 1', 'limits[squeeze force]'],
    ['a number in the text', 'UN-01.md', 'with one hand', 'with 2 hands', 'a number in its text changed'],
  ])('%s is no matter of wording', (_, file, from, to, named) => {
    approveAll();
    commitAll();
    change(file, from, to);
    refused(
      approve(
        '--lapsed',
        ...lead,
        '--no-effect',
        'A typo.',
        '--despite',
        'limit-untested,acceptance-unit-not-convertible',
      ),
      named,
      'Leave --no-effect out',
    );
  });

  test('without the earlier content nobody can say that a change has no technical effect', () => {
    approveAll();
    change('DI-01.md', 'upper: 25', 'upper: 30');
    refused(
      approve('DI-01', ...lead, '--no-effect', 'A typo.'),
      'the content of DI-01 that was approved is not to be found in git',
      'git fetch --unshallow',
    );
  });

  test('a dry run writes nothing and shows the lines', () => {
    const before = all();
    const outcome = approve('UN-01', 'DI-01', ...lead, '--dry-run');
    expect(outcome.code).toBe(0);
    expect(outcome.out).toContain('    -status: draft   # as yet\n    +status: approved   # as yet\n');
    expect(outcome.out).toContain('    +  - role: quality lead\n');
    expect(outcome.out).toContain('Dry run: nothing was written; 2 records would be approved.');
    expect(all()).toEqual(before);
  });
});

describe('refused, and nothing is written', () => {
  test.each([
    [[], 'nothing was named to approve', 'For example'],
    [['UN-01', '--because', 'UN-01', ...lead], 'named in two ways', '--because ID'],
    [['UN-01', '--lapsed', ...lead], 'no approval by quality lead has lapsed', 'nothing to approve again'],
    [['UN-02', ...lead], 'there is no record UN-02', 'Did you mean "UN-01"?'],
    [['--because', 'UN-02', ...lead], 'there is no record UN-02', 'Did you mean "UN-01"?'],
    [['UN-01'], 'needs the name of the person', 'never guessed'],
    [['UN-01', '--name', '  '], 'needs the name of the person', 'never guessed'],
    [['DI-01', '--name', 'Brede Falkonet'], 'several roles is in question', '--role ROLE'],
    [['UN-01', '--name', 'A', '--role', 'qualty lead'], 'UN-01 is approved by quality lead', 'Did you mean'],
    [['UN-01', ...lead, '--date', '2026-02-30'], '--date is "2026-02-30"', 'Write it as'],
    [['UN-01', ...lead, '--date', '2999-01-01'], 'after today', 'cannot be given ahead'],
    [['RV-01', ...lead], 'RV-01 is retired', 'in review'],
    [['--lapsed', ...lead], 'no approval by quality lead has lapsed', 'nothing to approve again'],
    [['UN-01', ...lead, '--no-effect', 'A typo.'], 'was never approved', 'first time'],
    [['DI-01', ...lead], 'DI-01 relies on UN-01, which is not approved', 'plinth approve UN-01 DI-01 --role'],
    [['DI-01', ...engineer], 'DI-01 relies on UN-01', 'plinth approve UN-01 --role "quality lead"'],
  ])('plinth approve %j', (words, message, hint) => {
    const before = all();
    refused(approve(...words), message, hint);
    expect(all()).toEqual(before);
  });

  test('one person in two roles that must be independent', () => {
    approveAll();
    change('DI-01.md', 'is low', 'is small');
    refused(
      approve('DI-01', '--role', 'quality lead', '--name', 'tamsin  oakrill'),
      'Tamsin Oakrill approved DI-01 as design engineer',
      'another person',
    );
  });

  test('an approval that is older than the one it would replace', () => {
    approveAll();
    change('UN-01.md', 'can dose', 'is able to dose');
    refused(approve('UN-01', ...lead, '--date', '2026-01-09'), 'on 2026-01-10, later than 2026-01-09');
  });

  test('an error on the record, unless the signer names it', () => {
    approveAll();
    change('VP-01.md', 'upper: 25', 'upper: 26');
    const before = all();
    refused(
      approve('VP-01', ...lead),
      'VP-01 accepts "squeeze force" of at most 26 N',
      '--despite acceptance-looser-than-input',
    );
    refused(approve('VP-01', ...lead, '--despite', 'link-cycle'), 'acceptance-looser');
    expect(all()).toEqual(before);
    done(approve('VP-01', ...lead, '--despite', 'link-cycle, acceptance-looser-than-input'));
  });

  test('a record that cannot be read in full, and one whose layout cannot be edited: all or none', () => {
    change('DO-01.md', 'kind: part', 'kind: 7');
    change('UN-01.md', 'approvals: []   # none', 'approvals: [\r\n  ]');
    const before = all();
    refused(approve('UN-01', 'DI-01', 'DO-01', ...lead), 'DO-01 cannot be read in full', 'plinth check');
    refused(approve('UN-01', 'DI-01', ...lead), 'UN-01.md cannot be edited', 'several lines');
    expect(all()).toEqual(before);
  });
});

test('links and permissions of a file stay', () => {
  const real = join(folder, 'content', 'needs.txt');
  writeFileSync(real, read('UN-01.md'));
  spawnSync('rm', [join(folder, 'content', 'UN-01.md')]);
  symlinkSync('needs.txt', join(folder, 'content', 'UN-01.md'));
  chmodSync(real, 0o640);
  done(approve('UN-01', ...lead));
  expect(readFileSync(real, 'utf8')).toContain('role: quality lead');
  expect(statSync(real).mode & 0o777).toBe(0o640);
});

test('words of a terminal in a title or an argument stay words', () => {
  change('UN-01.md', 'title: One-handed dosing', 'title: "One \\e[31m handed"');
  const outcome = approve('UN-01', ...lead, '--meaning', 'seen \u001b[2J: "x"');
  done(outcome);
  expect(outcome.out).not.toContain('\u001b');
  expect(read('UN-01.md')).toContain('meaning: "seen \\u001b[2J: \\"x\\""');
});

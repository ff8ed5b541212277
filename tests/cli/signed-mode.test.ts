import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type Author, canMakeKeys, commitAll, git, makeKey, put } from '../support/real-git.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

/** A technical file in signed mode, two people with keys of their own, and a stranger with one. */
const top = emptyFolder();
const keys = emptyFolder();
const signers = join(keys, 'allowed-signers');
const person = (name: string, email: string, key: string): Author => ({
  name,
  email,
  key: join(keys, key),
  date: '2026-12-02',
});
const lead = person('Brede Falkonet', 'brede@example.com', 'lead');
const stranger = person('Brede Falkonet', 'brede@example.com', 'stranger');

const need = (approvals: string) => `---
id: UN-01
type: user-need
title: One-handed dosing
status: ${approvals === '' ? 'draft' : 'approved'}
needed_by: [dental surgeon]
${approvals}---
The surgeon can dose with one hand.

## Rationale

The other hand holds the mirror.
`;

const check = () => {
  const { out, code } = runPlinth(top, [
    'check',
    '--as-of',
    '2026-12-10',
    '--format',
    'json',
    '--signers',
    signers,
  ]);
  const report = JSON.parse(out) as { findings: { code: string; message: string }[] };
  return {
    code,
    found: report.findings.filter((finding) => /sign/.test(finding.code)).map((finding) => finding.message),
  };
};

const digestOfNeed = (): string => {
  const { out } = runPlinth(top, ['check', '--format', 'json', '--as-of', '2026-12-10']);
  const found = /"digest": "([0-9a-f]{64})"/.exec(out);
  if (!found?.[1]) throw new Error(`no digest in ${out}`);
  return found[1];
};

describe.skipIf(!canMakeKeys)('signed mode, with real git and ssh keys (needs ssh-keygen)', () => {
  test('an approval counts once its commit carries the signature of the approver', () => {
    git(top, ['init', '-q']);
    const leadKey = makeKey(keys, 'lead');
    makeKey(keys, 'stranger');
    writeFileSync(signers, `brede@example.com namespaces="git" ${leadKey}\n`);
    put(
      top,
      'content/plinth.yaml',
      `device: { name: Applicator, maker: Harrow Lane Instruments }
approval_roles:
  "*": [quality lead]
signatures:
  since: 2026-12-01
  people:
    - { name: Brede Falkonet, signer: brede@example.com, roles: [quality lead] }
`,
    );
    put(top, 'content/UN-01.md', need('').replace('status: draft', 'status: approved'));
    commitAll(top, 'Begin');
    const approval = `approvals:
  - role: quality lead
    name: Brede Falkonet
    meaning: approved
    date: 2026-12-02
    digest: "${digestOfNeed()}"
`;
    put(top, 'content/UN-01.md', need(approval));
    expect(check().found).toEqual([
      'the approval of UN-01 by Brede Falkonet (quality lead) of 2026-12-02 is not signed: no commit holds it yet',
    ]);
    // The author field of a commit is what anybody types.
    const forged = commitAll(top, 'Approve UN-01', stranger);
    expect(check().found).toEqual([
      `the approval of UN-01 by Brede Falkonet (quality lead) of 2026-12-02 is not signed: commit ${forged.slice(0, 12)} is signed with a key that the allowed signers do not name, or not for that time`,
    ]);
    git(top, ['reset', '-q', '--soft', 'HEAD~1']);
    const plain = commitAll(top, 'Approve UN-01', { ...lead, key: '' });
    expect(check().found).toEqual([
      `the approval of UN-01 by Brede Falkonet (quality lead) of 2026-12-02 is not signed: commit ${plain.slice(0, 12)} is not signed`,
    ]);
    git(top, ['reset', '-q', '--soft', 'HEAD~1']);
    commitAll(top, 'Approve UN-01', lead);
    expect(check().found).toEqual([]);
  });

  test('an approval that bears a date before signed mode began still needs its signature', () => {
    const path = join(top, 'content/UN-01.md');
    const before = readFileSync(path, 'utf8');
    writeFileSync(path, before.replace('date: 2026-12-02', 'date: 2026-11-01'));
    const commit = commitAll(top, 'Approve of old', { ...lead, key: '' });
    expect(check().found).toEqual([
      `the approval of UN-01 by Brede Falkonet (quality lead) of 2026-11-01 is not signed: commit ${commit.slice(0, 12)} is not signed`,
    ]);
    git(top, ['reset', '-q', '--hard', 'HEAD~1']);
    expect(check().found).toEqual([]);
  });

  test('a later commit by anybody leaves the approval as it is', () => {
    put(top, 'content/note.csv', 'a\n1\n');
    commitAll(top, 'Add something unsigned');
    expect(check().found).toEqual([]);
  });

  test('an approval that somebody else rewrote is not signed any more', () => {
    const path = join(top, 'content/UN-01.md');
    const before = readFileSync(path, 'utf8');
    writeFileSync(path, before.replace('meaning: approved', 'meaning: approved for sale'));
    const commit = commitAll(top, 'Reword');
    expect(check().found).toEqual([
      `the approval of UN-01 by Brede Falkonet (quality lead) of 2026-12-02 is not signed: commit ${commit.slice(0, 12)} is not signed`,
    ]);
    writeFileSync(path, before);
    commitAll(top, 'Take it back');
    expect(check().found).toEqual([]);
  });

  test('without allowed signers, and outside of git, it says that nothing was checked', () => {
    const outside = emptyFolder();
    put(outside, 'content/plinth.yaml', readFileSync(join(top, 'content/plinth.yaml')));
    const { out, code } = runPlinth(outside, ['check']);
    expect(code).toBe(1);
    expect(out).toContain('signatures are asked for, but were not checked');
    const none = runPlinth(top, ['check', '--signers', 'nowhere'], { GIT_CONFIG_GLOBAL: '/dev/null' });
    expect(none).toMatchObject({ code: 2 });
    expect(none.error).toContain('there is no file');
    const unset = runPlinth(top, ['check'], {
      GIT_CONFIG_GLOBAL: '/dev/null',
      GIT_CONFIG_SYSTEM: '/dev/null',
    });
    expect(unset.out.replace(/\s+/g, ' ')).toContain('no file of allowed signers was named');
  });

  test('a shallow clone does not take what it cannot see for signed', () => {
    const copy = emptyFolder();
    git(copy, ['clone', '-q', '--depth', '1', `file://${top}`, 'clone']);
    const { out } = runPlinth(join(copy, 'clone'), ['check', '--as-of', '2026-12-10', '--signers', signers]);
    expect(out.replace(/\s+/g, ' ')).toContain('it may have come in before');
  });
});

import { appendFileSync, cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { reviewer } from '../returned/reviewed-file.ts';
import { commitAll, git } from '../support/real-git.ts';
import { projectRoot } from '../support/technical-file.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const top = emptyFolder();
cpSync(join(projectRoot, 'content'), join(top, 'content'), { recursive: true });
git(top, ['init', '-q']);
const first = commitAll(top, 'The file as sent');
runPlinth(top, ['build', '--only', 'DOC-06']);
const sent = 'build/DOC-06-risk-management-plan.docx';

interface Report {
  readonly unedited: string;
  readonly currentState: string;
  readonly currentText: string;
  readonly commit?: { readonly id: string };
  readonly searched?: number;
  readonly changes: number;
  readonly properties: Readonly<Record<string, string>>;
}
const asked = (name: string): Report & { readonly code: number | null } => {
  const { out, code } = runPlinth(top, ['check', name, '--format', 'json']);
  return { ...(JSON.parse(out) as Report), code };
};

describe('a Word file in hand', () => {
  test('as it was written, of this state', () => {
    expect(asked(sent)).toMatchObject({
      unedited: 'yes',
      currentState: 'yes',
      currentText: 'yes',
      changes: 0,
      code: 0,
    });
    expect(asked(sent).properties['Git revision']).toBe(first);
  });

  test('edited since: with a tracked change, or in secret', () => {
    const bytes = new Uint8Array(readFileSync(join(top, sent)));
    const tracked = reviewer(bytes);
    tracked.replace('This plan holds', 'This plan does not hold', 'R');
    writeFileSync(join(top, 'tracked.docx'), tracked.save());
    expect(asked('tracked.docx')).toMatchObject({ unedited: 'no', currentState: 'yes', changes: 2, code: 1 });
    const secret = reviewer(bytes);
    secret.swap('This plan holds', 'This plan holds not');
    writeFileSync(join(top, 'secret.docx'), secret.save());
    expect(asked('secret.docx')).toMatchObject({ unedited: 'no', changes: 0, code: 1 });
  });

  /** The file as sent with a part rewritten. */
  const rewrite = (name: string, path: string, change: (text: string) => string): void => {
    const files = unzipSync(new Uint8Array(readFileSync(join(top, sent))));
    files[path] = strToU8(change(strFromU8(files[path] ?? new Uint8Array())));
    writeFileSync(join(top, name), zipSync(files));
  };

  test('edited since in its properties: says so, and that these are not to be relied on', () => {
    rewrite('renumbered.docx', 'docProps/custom.xml', (xml) => xml.replace(/DGA1-RM-003/g, 'DGA1-RM-999'));
    const said = runPlinth(top, ['check', 'renumbered.docx']).out.replace(/\s+/g, ' ');
    expect(said).toContain(
      'Somebody edited the file since it was written. Not as written: number, revision, state or origin in its properties.',
    );
    expect(said).toContain('cannot be relied on');
  });

  test('saved anew by another program: the form is another, and nothing else', () => {
    rewrite('saved.docx', 'docProps/app.xml', (xml) =>
      xml.replace('<Application>Plinth<', '<Application>Some Writer/7.4$Linux<'),
    );
    const { out, code } = runPlinth(top, ['check', 'saved.docx']);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('No edit was found since it was written.');
    expect(out.replace(/\s+/g, ' ')).toContain(
      'Another program, Some Writer, saved it anew in its own form.',
    );
  });

  test('of an earlier version, which kept a digest of the words alone, says that no more can be told', () => {
    rewrite('older.docx', 'docProps/custom.xml', (xml) =>
      xml.replace(
        /<property [^>]*name="(?:Hidden|Pictures|Drawings|Running|Particulars)[^>]*>.*?<\/property>/g,
        '',
      ),
    );
    const { out, code } = runPlinth(top, ['check', 'older.docx']);
    expect(code).toBe(1);
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /The words are those that were written\. Whether somebody edited .* cannot be told/,
    );
  });

  test('of another device is no other state of this file', () => {
    const path = join(top, 'content/plinth.yaml');
    const before = readFileSync(path, 'utf8');
    writeFileSync(path, before.replace(/^( {2}maker:).*$/m, '$1 Otherworks'));
    const remark = join(top, 'content/materials/MT-01.md');
    const material = readFileSync(remark, 'utf8');
    writeFileSync(remark, `${material}\nA material of another device.\n`);
    runPlinth(top, ['build', '--only', 'DOC-06', '--output', 'other']);
    writeFileSync(path, before);
    writeFileSync(remark, material);
    const { out } = runPlinth(top, ['check', sent.replace('build', 'other')]);
    expect(out.replace(/\s+/g, ' ')).toContain(
      'It seems to belong to another technical file: it names the maker "Otherworks"',
    );
    expect(out).not.toContain('another state of the technical file');
  });

  test('a comment is no edit of the words', () => {
    const hand = reviewer(new Uint8Array(readFileSync(join(top, sent))));
    hand.comment('This plan holds', { author: 'R', text: 'Since when?' });
    writeFileSync(join(top, 'commented.docx'), hand.save());
    expect(asked('commented.docx')).toMatchObject({ unedited: 'yes', code: 0 });
    expect(runPlinth(top, ['check', 'commented.docx']).out).toContain(
      'It holds 1 comment and 0 tracked changes',
    );
  });

  test('of an earlier state: names its commit, and whether the document itself has changed', () => {
    appendFileSync(join(top, 'content/materials', 'MT-01.md'), '\nA remark.\n');
    const other = asked(sent);
    expect(other).toMatchObject({ unedited: 'yes', currentState: 'no', commit: { id: first } });
    appendFileSync(join(top, 'content/documents/DOC-06.md'), '\nOne more sentence.\n');
    expect(asked(sent)).toMatchObject({ currentText: 'no', code: 1 });
    runPlinth(top, ['build', '--only', 'DOC-06', '--output', 'dirty']);
    const dirty = asked(sent.replace('build', 'dirty'));
    expect(dirty.properties['Git revision']).toBe(`${first}, with changes that are in no commit`);
    git(top, ['checkout', '-q', '--', 'content']);
    expect(asked(sent.replace('build', 'dirty'))).toMatchObject({ currentState: 'no', searched: 1, code: 1 });
  });

  test('that does not come from here says so', () => {
    const hand = reviewer(new Uint8Array(readFileSync(join(top, sent))));
    hand.dropProperties();
    writeFileSync(join(top, 'foreign.docx'), hand.save());
    expect(asked('foreign.docx')).toMatchObject({
      unedited: 'unknown',
      currentState: 'unknown',
      currentText: 'unknown',
      code: 1,
    });
    expect(runPlinth(top, ['check', 'foreign.docx', '--format', 'sarif']).code).toBe(2);
  });
});

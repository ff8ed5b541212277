import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { describe, expect, test } from 'vitest';
import { xmlParts } from '../writers/docx-parts.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const technicalFile: Readonly<Record<string, string>> = {
  'plinth.yaml':
    'device: { name: Dental granule applicator, maker: Harrow Lane Instruments }\nas_of: 2026-11-20\n',
  'user-needs/UN-01.md':
    '---\nid: UN-01\ntype: user-need\ntitle: One-handed dosing\nstatus: draft\nneeded_by: [dental surgeon]\n---\nThe surgeon doses with one hand.\n\n## Rationale\nThe other hand holds the mirror.\n',
  'documents/DOC-01.md': `---\nid: DOC-01\ntype: document\ntitle: Surveillance plan\nstatus: draft\nrevision: "1"\n---\n# Index\n\n\`\`\`plinth submission-index\nof: SB-01\n\`\`\`\n`,
  'documents/DOC-02.md':
    '---\nid: DOC-02\ntype: document\ntitle: Need\nstatus: draft\nrevision: "1"\nfor_each: { type: user-need }\n---\n# Need\n\n```plinth records\ntype: user-need\nof: [each]\n```\n',
  'data/complaints (2026).csv': 'day,count\n2026-01-02,1\n',
  'submissions/SB-01.md': `---
id: SB-01
type: submission
title: Surveillance of the applicator
status: draft
body: Notified body (invented)
formats: [docx, html]
tables:
  - table: eu-mdr-annex-3
    rows:
      - clause: "1.1"
        content:
          - { document: DOC-01, where: the whole plan }
          - { file: data/complaints (2026).csv }
          - { record: UN-01 }
      - { clause: 1.1(b), content: [{ document: DOC-01 }] }
      - clause: 1.1(a)
        content:
          - { document: DOC-02, for: [UN-01] }
      - { clause: "1.2", empty: No device has been sold. }
---
For the notified body.
`,
};

const laidDown = (more: Readonly<Record<string, string>> = {}): string => {
  const folder = emptyFolder();
  for (const [path, text] of Object.entries({ ...technicalFile, ...more })) {
    const place = join(folder, 'content', path);
    mkdirSync(dirname(place), { recursive: true });
    writeFileSync(place, text);
  }
  return folder;
};

const name = 'SB-01-surveillance-of-the-applicator';

const filesBelow = (folder: string, prefix = ''): readonly string[] =>
  readdirSync(join(folder, prefix))
    .sort()
    .flatMap((each) => {
      const path = posix.join(prefix, each);
      return statSync(join(folder, path)).isDirectory() ? filesBelow(folder, path) : [path];
    });

const unescaped = (text: string): string => text.replaceAll('&amp;', '&').replaceAll('&quot;', '"');

/** Where the links of a file lead to that name no scheme: paths from the root of the folder, without bookmarks. */
const linksOf = (folder: string, path: string): readonly string[] => {
  const bytes = readFileSync(join(folder, path));
  const targets = path.endsWith('.html')
    ? [...bytes.toString('utf8').matchAll(/<a [^>]*href="([^"#][^"]*)"/g)].map((match) => match[1] ?? '')
    : [...(xmlParts(bytes).get('word/_rels/document.xml.rels') ?? '').matchAll(/<Relationship [^>]*>/g)]
        .filter(([relation]) => relation.includes('TargetMode="External"'))
        .map(([relation]) => /Target="([^"]*)"/.exec(relation)?.[1] ?? '');
  return targets
    .map((target) => decodeURIComponent(unescaped(target).split('#')[0] ?? ''))
    .filter((target) => !/^[a-z]+:/i.test(target))
    .map((target) => posix.join(posix.dirname(path), target));
};

interface Manifest {
  readonly form: string;
  readonly files: readonly {
    readonly path: string;
    readonly bytes: number;
    readonly sha256: string;
    readonly source?: string;
  }[];
  readonly rows: readonly {
    readonly clause: string;
    readonly state: string;
    readonly as?: string;
    readonly reason?: string;
    readonly files?: readonly string[];
  }[];
}

describe('the folder of a submission', () => {
  const folder = laidDown();
  const outcome = runPlinth(folder, ['assemble', 'SB-01']);
  const output = join(folder, 'build', name);
  const files = existsSync(output) ? filesBelow(output) : [];
  const manifest = JSON.parse(readFileSync(join(output, 'manifest.json'), 'utf8')) as Manifest;

  test('holds the documents in numbered folders, the data, an index and a manifest', () => {
    expect(outcome.error).toBe('');
    expect(files).toEqual([
      '02-a3-1-1-post-market-surveillance-plan-art-84/DOC-01-surveillance-plan.docx',
      '02-a3-1-1-post-market-surveillance-plan-art-84/DOC-01-surveillance-plan.html',
      '02-a3-1-1-post-market-surveillance-plan-art-84/DOC-02-UN-01-one-handed-dosing.docx',
      '02-a3-1-1-post-market-surveillance-plan-art-84/DOC-02-UN-01-one-handed-dosing.html',
      'data/data/complaints-2026-.csv',
      'index.docx',
      'index.html',
      'manifest.csv',
      'manifest.json',
    ]);
    expect(readFileSync(join(output, 'data/data/complaints-2026-.csv'), 'utf8')).toBe(
      technicalFile['data/complaints (2026).csv'],
    );
  });

  test('has an index whose every link leads to a file that is there, in Word and as a page', () => {
    for (const index of ['index.html', 'index.docx']) {
      const links = linksOf(output, index);
      expect(
        links.filter((link) => !files.includes(link)),
        index,
      ).toEqual([]);
      for (const wanted of manifest.files.filter(
        ({ path }) => !path.endsWith('.html') && !path.startsWith('index'),
      ))
        expect(links, `${index} leads to ${wanted.path}`).toContain(wanted.path);
    }
  });

  test('has documents whose links lead to each other', () => {
    const documents = files.filter((path) => /^\d\d.*DOC-01.*\.(docx|html)$/.test(path));
    expect(documents.length).toBe(2);
    for (const path of documents) {
      const links = linksOf(output, path);
      expect(links.length, path).toBeGreaterThan(0);
      expect(
        links.filter((link) => !files.includes(link)),
        path,
      ).toEqual([]);
    }
  });

  test('has a manifest with the digest of each file, which another program confirms', () => {
    const told = new Map(manifest.files.map((file) => [file.path, file]));
    for (const path of files.filter((each) => !each.startsWith('manifest'))) {
      const bytes = readFileSync(join(output, path));
      expect(told.get(path)?.sha256, path).toBe(createHash('sha256').update(bytes).digest('hex'));
      expect(told.get(path)?.bytes, path).toBe(bytes.length);
    }
    expect(told.size).toBe(files.length - 2);
    const rows = readFileSync(join(output, 'manifest.csv'), 'utf8').trim().split('\r\n').slice(1);
    expect(rows.length).toBe(manifest.files.length);
    for (const { path, sha256 } of manifest.files)
      expect(
        rows.some((row) => row.includes(path) && row.includes(sha256)),
        path,
      ).toBe(true);
  });

  test('tells what is missing and why', () => {
    const row = (clause: string) => manifest.rows.find((each) => each.clause === clause);
    expect(row('0')).toMatchObject({ state: 'missing' });
    expect(row('1.2')).toMatchObject({ state: 'left empty', reason: 'No device has been sold.' });
    expect(row('1.1(b).2')).toMatchObject({ state: 'answered', as: '1.1(b)' });
    expect(outcome.out).toMatch(
      /Rows: 3 answered by an entry of their own, 16 only by that of a row above, 1 /,
    );
    expect(outcome.out).toContain('warning: SB-01 says nothing of row 0 of eu-mdr-annex-3');
    const page = readFileSync(join(output, 'index.html'), 'utf8');
    expect(page).toContain('No device has been sold.');
    expect(page).toMatch(/Rows .* have no entry of their own; row .* above them has content/);
    expect(page).toContain('1 row has neither content nor a reason');
    expect(page).toContain('does not say that the device is safe');
  });

  test('is the same, byte for byte, elsewhere and in another time zone and language', () => {
    const other = laidDown();
    runPlinth(other, ['assemble', 'SB-01'], { TZ: 'Asia/Tokyo', LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8' });
    for (const path of files)
      expect(
        readFileSync(join(other, 'build', name, path)).equals(readFileSync(join(output, path))),
        path,
      ).toBe(true);
  });

  test('is told from the one that was handed in by the digest of its manifest', () => {
    const digest = createHash('sha256')
      .update(readFileSync(join(output, 'manifest.json')))
      .digest('hex');
    expect(outcome.out).toContain(`manifest.json: SHA-256 ${digest}`);
    const said = (fields: string): string =>
      runPlinth(
        laidDown({
          'submissions/SB-01.md':
            technicalFile['submissions/SB-01.md']?.replace('formats:', `${fields}formats:`) ?? '',
        }),
        ['assemble'],
      ).out;
    const first = said('handed_in: 2026-11-19\n');
    expect(first).toContain('add "manifest_sha256"');
    expect(first).not.toContain(digest);
    // The digest changes no byte of the folder that it stands for.
    const [, known = ''] = /manifest\.json: SHA-256 ([0-9a-f]{64})/.exec(first) ?? [];
    expect(said(`handed_in: 2026-11-19\nmanifest_sha256: "${known}"\n`)).toContain(
      'This is the folder that was handed in on 2026-11-19.',
    );
  });

  test('is replaced as a whole, and leaves nothing of the one before', () => {
    writeFileSync(join(output, 'notes.txt'), 'mine');
    const again = runPlinth(folder, ['assemble']);
    expect(again.out).toContain(`Written: build/${name}`);
    expect(filesBelow(output)).toEqual(files);
    expect(readdirSync(join(folder, 'build'))).toEqual([name]);
  });
});

describe('what assemble refuses', () => {
  test('to take the place of a folder that it has not written', () => {
    const folder = laidDown();
    mkdirSync(join(folder, 'build', name), { recursive: true });
    writeFileSync(join(folder, 'build', name, 'thesis.txt'), 'mine');
    const { code, error } = runPlinth(folder, ['assemble']);
    expect(code).toBe(2);
    expect(error).toContain('is no submission folder of plinth');
    expect(readFileSync(join(folder, 'build', name, 'thesis.txt'), 'utf8')).toBe('mine');
  });

  test('a submission that is not there, with the nearest one', () => {
    const { code, error } = runPlinth(laidDown(), ['assemble', 'SB-10']);
    expect(code).toBe(2);
    expect(error).toContain('there is no submission SB-10');
    expect(error).toContain('Did you mean SB-01?');
  });

  test('a technical file without a submission', () => {
    const folder = laidDown({
      'submissions/SB-01.md':
        technicalFile['submissions/SB-01.md']?.replace('status: draft', 'status: retired') ?? '',
      'documents/DOC-01.md': technicalFile['documents/DOC-02.md']?.replace('DOC-02', 'DOC-01') ?? '',
    });
    const { code, error } = runPlinth(folder, ['assemble']);
    expect(code).toBe(2);
    expect(error).toContain('there is no submission');
  });
});

test('hostile names and words stay words: no script, no formula, no way out of the folder', () => {
  const folder = laidDown({
    'documents/DOC-02.md':
      '---\nid: DOC-02\ntype: document\ntitle: "../../<script>alert(1)</script>"\nstatus: draft\nnumber: "=cmd|x"\nrevision: "1"\n---\n# Words\n',
    'submissions/SB-01.md': `---\nid: SB-01\ntype: submission\ntitle: "../../../<img src=x onerror=alert(1)>"\nstatus: draft\nbody: "<b>body</b>"\nformats: [html]\ntables:\n  - table: eu-mdr-annex-3\n    rows:\n      - { clause: "1.1", content: [{ document: DOC-02, where: "<script>x</script>" }, { file: ../../plinth.yaml }] }\n---\n[x](javascript:alert(1))\n`,
  });
  const { out } = runPlinth(folder, ['assemble', 'SB-01']);
  expect(out).toContain('Written: build/SB-01-img-src-x-onerror-alert-1\n');
  const output = join(folder, 'build', 'SB-01-img-src-x-onerror-alert-1');
  const files = filesBelow(output);
  expect(files).toContain('02-a3-1-1-post-market-surveillance-plan-art-84/DOC-02-script-alert-1-script.html');
  expect(readdirSync(join(folder, 'build')).length).toBe(1);
  for (const path of files.filter((each) => each.endsWith('.html'))) {
    const page = readFileSync(join(output, path), 'utf8');
    expect(page).not.toMatch(/<script|<img src=x|<b>body|href="javascript:/);
  }
  expect(readFileSync(join(output, 'manifest.csv'), 'utf8')).not.toMatch(/(^|,|")=cmd/m);
});

import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { sha256Hex } from '../../src/graph/digest.ts';
import { readHouseStyle } from '../../src/house/house-style.ts';
import { readReview } from '../../src/returned/read-review.ts';
import type { ReviewMark } from '../../src/returned/review-marks.ts';
import { openWordPackage } from '../../src/returned/word-package.ts';
import { seenDigests } from '../../src/writers/docx/seen-parts.ts';
import { wantedStyles } from '../../src/writers/docx/styles.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { emptyFolder, runPlinth } from '../cli/run-plinth.ts';
import { germanHouse } from '../house/house-files.ts';
import { reviewer } from '../returned/reviewed-file.ts';
import { projectRoot } from '../support/technical-file.ts';
import { sampleDocument } from '../writers/sample-document.ts';
import { inFolder, run } from './programs.ts';

/** The file as LibreOffice saves it after opening. */
const savedByLibreOffice = (docx: Uint8Array): Uint8Array =>
  inFolder((folder) => {
    writeFileSync(join(folder, 'sent.docx'), docx);
    const profile = `-env:UserInstallation=file://${join(folder, 'profile')}`;
    const target = join(folder, 'saved');
    const { output } = run('soffice', [
      profile,
      '--headless',
      '--convert-to',
      'docx',
      '--outdir',
      target,
      join(folder, 'sent.docx'),
    ]);
    const [name] = readdirSync(target);
    if (name === undefined) throw new Error(`nothing was saved: ${output}`);
    return new Uint8Array(readFileSync(join(target, name)));
  });

const marksOf = (docx: Uint8Array): readonly ReviewMark[] => {
  const opened = openWordPackage(docx);
  if (!opened.ok) throw new Error(opened.reason);
  return readReview(opened.package);
};

/** What must survive; LibreOffice drops the link of a reply, which then is a comment of its own. */
const essence = (marks: readonly ReviewMark[]): readonly string[] =>
  marks
    .flatMap((mark) => {
      const at = mark.place.bookmark ?? 'nowhere';
      return mark.kind === 'change'
        ? [`${at} ${mark.change} by ${mark.author}: ${mark.text}`]
        : [mark, ...mark.replies].map((note) => `${at} comment by ${note.author}: ${note.text}`);
    })
    .sort();

const output = emptyFolder();
const words = ['build', 'content', '--output', output, '--only', 'DOC-01,DOC-02,DOC-04,DOC-06,DOC-16'];
const built = runPlinth(projectRoot, words);

const fileOf = (id: string): Uint8Array => {
  const name = readdirSync(output).find((each) => each.startsWith(id) && each.endsWith('.docx'));
  if (name === undefined) throw new Error(`${built.out}${built.error}`);
  return new Uint8Array(readFileSync(join(output, name)));
};

test("comments and changes survive LibreOffice's round trip with their records", () => {
  const specification = reviewer(fileOf('DOC-02'));
  const first = specification.comment('axial pull', { author: 'R. One', text: 'At which speed?' });
  specification.reply(first, { author: 'R. Two', text: 'See the protocol.' });
  specification.comment('side load', { author: 'R. One', text: 'Fine.', resolved: true });
  specification.replace('at least 30 N', 'at least 28 N', 'R. Two');
  const matrix = reviewer(fileOf('DOC-01'));
  matrix.comment('Nothing breaks off', { author: 'R', text: 'Off where?' });
  // Ids in the column of controls are links into other documents.
  const risks = reviewer(fileOf('DOC-04'));
  risks.comment('Seal width', { author: 'R', text: 'How wide?' });
  for (const sent of [specification.save(), matrix.save(), risks.save()]) {
    const before = essence(marksOf(sent));
    expect(before.length).toBeGreaterThan(0);
    expect(before.join('\n')).not.toContain('nowhere');
    expect(essence(marksOf(savedByLibreOffice(sent)))).toEqual(before);
  }
});

// The last one holds a figure.
test.each(['DOC-02', 'DOC-06', 'DOC-16'])(
  '%s saved again by LibreOffice still has all that is compared',
  (id) => {
    const again = join(output, `${id}-again.docx`);
    writeFileSync(again, savedByLibreOffice(fileOf(id)));
    const { out } = runPlinth(projectRoot, ['check', again, '--format', 'json']);
    const { unedited, savedBy } = JSON.parse(out) as { unedited: string; savedBy?: string };
    expect([unedited, savedBy]).toEqual(['yes', 'LibreOffice']);
  },
);

test('so has one with the logo of a house style in its heads', async () => {
  const house = readHouseStyle(germanHouse(), wantedStyles());
  if (!house.ok) throw new Error(house.reason);
  const { bytes } = await writeDocx(
    { ...sampleDocument, blocks: [{ kind: 'heading', level: 1, children: [{ kind: 'text', value: 'A' }] }] },
    { digestOf: sha256Hex, house: house.style },
  );
  const files = unzipSync(savedByLibreOffice(bytes));
  const partOf = (path: string): string | undefined => files[path] && strFromU8(files[path]);
  const { heads } = seenDigests({ part: partOf, bytes: (path) => files[path] }, sha256Hex);
  expect(partOf('docProps/custom.xml')).toContain(heads);
});

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { commands } from '../../src/cli/commands.ts';
import { overview } from '../../src/cli/help.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import { shortCaution } from '../../src/document/short-caution.ts';
import { analyse } from '../../src/pipeline.ts';
import { compileDocuments } from '../../src/views/compile-document.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { writeHtml } from '../../src/writers/html/write-html.ts';
import { inputsFrom, projectRoot, readTree } from '../support/technical-file.ts';
import { linesOf, xmlParts } from './docx-parts.ts';

const analysis = analyse(inputsFrom(readTree('content')), []);
const documents = compileDocuments(
  { ...analysis, waived: analysis.waivers.waived },
  await createMarkdownCompiler(),
);

const oneLine = (text: string): string => text.replace(/\s+/g, ' ');

test('every deliverable of the demonstration file has a short caution for its foot, and the whole one at its end', () => {
  expect(documents.length).toBeGreaterThan(20);
  for (const { document } of documents) {
    expect(document.caution, document.id).toBe(shortCaution);
    expect(document.provenance.find(({ name }) => name === 'Caution')?.value, document.id).toMatch(
      /does not say that the device is safe/,
    );
  }
});

test('the caution stands at the foot of every page in Word, but for the cover, and of the page in HTML', async () => {
  const document = documents.find(({ record }) => record.id === 'DOC-21')?.document;
  if (!document) throw new Error('there is no DOC-21');
  const feet = [...xmlParts((await writeDocx(document, {})).bytes)].filter(([path]) =>
    /^word\/footer\d+\.xml$/.test(path),
  );
  const filled = feet.filter(([, xml]) => linesOf(xml).length > 0);
  expect(filled.length).toBeGreaterThan(0);
  for (const [path, xml] of filled) expect(linesOf(xml), path).toContain(shortCaution);
  expect(writeHtml(document)).toContain(`<footer>${shortCaution}</footer>`);
});

test('the foot does not let the day of the content be read as that of the approval', async () => {
  const document = documents.find(({ record }) => record.id === 'DOC-21')?.document;
  if (!document) throw new Error('there is no DOC-21');
  const feet = [...xmlParts((await writeDocx(document, {})).bytes)].filter(([path]) =>
    /^word\/footer\d+\.xml$/.test(path),
  );
  const text = feet.flatMap(([, xml]) => linesOf(xml)).join('\n');
  expect(text).toContain('approved, content as of 2026-11-20');
  expect(text).not.toMatch(/approved\s*·\s*2026/);
});

test('help and README say that the tool gives no legal advice and that people decide', () => {
  for (const text of [
    overview(commands, '0.0.0'),
    readFileSync(join(projectRoot, 'README.md'), 'utf8').split('\n## ')[0] ?? '',
  ]) {
    expect(oneLine(text)).toContain('no legal advice');
    expect(oneLine(text)).toMatch(/never says that a device is safe or (that )?a file (complies|compliant)/);
    expect(oneLine(text)).toMatch(/qualified people/);
    expect(oneLine(text)).toContain('standards themselves');
  }
});

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { writeWord } from '../../src/cli/write-word.ts';
import { writeHtml } from '../../src/writers/html/write-html.ts';
import { sampleFigures } from '../figures/sample-figures.ts';
import { sampleDocument } from '../writers/sample-document.ts';
import { inFolder, run, screenshot } from './programs.ts';

const figures = Object.entries(sampleFigures()).flatMap(([caption, figure]) =>
  figure ? [{ kind: 'figure' as const, caption, ...figure }] : [],
);
const document = { ...sampleDocument, blocks: figures, footnotes: [] };

test('LibreOffice shows every figure: as many pictures on paper as in the document', async () => {
  const bytes = await writeWord(document);
  const list = inFolder((folder) => {
    writeFileSync(join(folder, 'document.docx'), bytes);
    const profile = `-env:UserInstallation=file://${join(folder, 'profile')}`;
    run('soffice', [
      profile,
      '--headless',
      '--convert-to',
      'pdf',
      '--outdir',
      folder,
      join(folder, 'document.docx'),
    ]);
    return run('pdfimages', ['-list', join(folder, 'document.pdf')]).output;
  });
  const sizes = [...list.matchAll(/ image +(\d+) +(\d+) /g)].map(([, width, height]) => [
    Number(width),
    Number(height),
  ]);
  expect(sizes).toEqual(figures.map((figure) => [2 * figure.widthPx, 2 * figure.heightPx]));
});

test.each(['light', 'dark'] as const)(
  'Chromium draws figures, %s: another page than one without them',
  (scheme) => {
    const first = figures[0];
    if (!first) throw new Error('there is no figure');
    const page = (svg: string) =>
      screenshot(writeHtml({ ...document, blocks: [{ ...first, svg }], signatures: [] }), scheme);
    const blank = first.svg.replace(/<(line|polyline|text|rect)[ >].*(?=<\/svg>)/s, '');
    expect(page(first.svg).equals(page(blank))).toBe(false);
  },
);

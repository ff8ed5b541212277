import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { csvOf, filesOf, normalReadings } from '../evidence/test-run.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

test('a build from the bundle alone puts figures with their pictures into Word and HTML', () => {
  const folder = emptyFolder();
  const files = filesOf({
    acceptance: '{ characteristic: force, unit: N, lower: 8 }',
    sampling: 'kind: normal-tolerance-interval, confidence: 0.95, reliability: 0.9',
    csv: csvOf(normalReadings(20, 10, 0.5).map((value) => value.toFixed(3))),
  });
  files.set(
    'DOC-01.md',
    '---\nid: DOC-01\ntype: document\ntitle: Working\nstatus: draft\nrevision: "1"\nformats: [docx, html]\n---\n# Working\n\n```plinth evidence\nof: [VR-01]\n```\n',
  );
  for (const [path, content] of files) {
    mkdirSync(dirname(join(folder, 'content', path)), { recursive: true });
    writeFileSync(join(folder, 'content', path), content);
  }
  // The bundle away from its packages, as an installed tool has it: what draws pictures must be beside it.
  const home = emptyFolder();
  const bundle = dirname(process.env['PLINTH_UNDER_TEST'] ?? '');
  cpSync(bundle, join(home, 'build', 'cli'), { recursive: true });
  cpSync(join(bundle, '..', '..', 'schemas'), join(home, 'schemas'), { recursive: true });
  cpSync(join(bundle, '..', '..', 'package.json'), join(home, 'package.json'));
  const kept = process.env['PLINTH_UNDER_TEST'] ?? '';
  process.env['PLINTH_UNDER_TEST'] = join(home, 'build', 'cli', 'plinth.js');
  try {
    const { out, error } = runPlinth(folder, ['build']);
    expect(error).toBe('');
    expect(out).toContain('DOC-01-working.docx');
  } finally {
    process.env['PLINTH_UNDER_TEST'] = kept;
  }
  expect(readdirSync(join(home, 'build', 'cli', 'figures'))).toContain('Carlito.LICENSE');
  const parts = unzipSync(new Uint8Array(readFileSync(join(folder, 'build', 'DOC-01-working.docx'))));
  const media = Object.keys(parts).filter((name) => name.startsWith('word/media/'));
  expect(media.sort()).toEqual([
    'word/media/figure1.png',
    'word/media/figure1.svg',
    'word/media/figure2.png',
    'word/media/figure2.svg',
  ]);
  expect(readFileSync(join(folder, 'build', 'DOC-01-working.html'), 'utf8')).toContain(
    'alt="Histogram of 20 readings of force',
  );
});

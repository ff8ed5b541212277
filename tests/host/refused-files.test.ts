import { mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readFolder, systemMessage } from '../../src/host/read-folder.ts';
import { analyse } from '../../src/pipeline.ts';
import { largestFileBytes } from '../../src/records/source-file.ts';
import { need, projectText } from '../records/read-files.ts';
import { ownSchemas } from '../support/technical-file.ts';

test('whatever was not read is a finding with a hint, and every other record is still read', () => {
  const root = mkdtempSync(join(tmpdir(), 'plinth-refused-'));
  try {
    writeFileSync(join(root, 'plinth.yaml'), projectText);
    writeFileSync(join(root, 'UN-01.md'), need('UN-01'));
    writeFileSync(join(root, 'large.md'), '');
    truncateSync(join(root, 'large.md'), largestFileBytes + 1);
    symlinkSync('/', join(root, 'root'));
    symlinkSync('loop.md', join(root, 'loop.md'));
    const { findings, graph } = analyse(
      { ...readFolder(root), schemas: ownSchemas, today: '2026-11-20', toolVersion: '0.0.0-test' },
      [],
    );
    expect(graph.record('UN-01')?.sound).toBe(true);
    expect(findings.map(({ code, place, message }) => `${place.file} ${code}: ${message}`)).toEqual([
      'large.md file-refused: the file is too large: 5.1 MB, at most 5 MB are read',
      'loop.md file-refused: the file cannot be opened: it is a link: links lead in a circle',
      'root file-refused: the file leads out of the technical file: it is a link to a place outside',
    ]);
    for (const { hint, message } of findings) {
      expect(hint).toBeTruthy();
      expect(message).not.toContain(root);
    }
  } finally {
    rmSync(root, { recursive: true });
  }
});

test('a code of the system that no words are known for stands for itself', () => {
  expect(systemMessage({ code: 'constructor' })).toBe('constructor');
  expect(systemMessage('thrown text')).toBe('unknown error');
});

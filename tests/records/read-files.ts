import type { Finding } from '../../src/findings/finding.ts';
import { analyse } from '../../src/pipeline.ts';
import { readRecords } from '../../src/records/read-records.ts';
import { readSchemas } from '../../src/records/schema-set.ts';
import { inputsFrom, ownSchemas } from '../support/technical-file.ts';

export const projectText = 'device: { name: Test device, maker: Harrow Lane Instruments }\n';

/** A sound user need; `front` is put among its fields. */
export const need = (id: string, front = '', body = 'A statement.\n\n## Rationale\n\nA reason.\n'): string =>
  `---\nid: ${id}\ntype: user-need\ntitle: A need\nstatus: draft\nneeded_by: [dental surgeon]\n${front}---\n${body}`;

export const withProject = (files: Readonly<Record<string, string | Uint8Array>>) =>
  new Map<string, string | Uint8Array>([['plinth.yaml', projectText], ...Object.entries(files)]);

/** The technical file without any check: what reading alone finds. */
export const readFiles = (files: Readonly<Record<string, string | Uint8Array>>) =>
  analyse(inputsFrom(withProject(files)), []);

/** One line for each finding: place, code, message, hint. */
export const said = (findings: readonly Finding[]): readonly string[] =>
  findings.map(
    ({ place, code, message, hint }) =>
      `${place.file}:${place.line}:${place.column} ${code}: ${message}${hint ? ` | ${hint}` : ''}`,
  );

export const found = (files: Readonly<Record<string, string | Uint8Array>>): readonly string[] =>
  said(readFiles(files).findings);

const schemas = readSchemas(ownSchemas);

/** Reading alone, with schemas that are compiled once. */
export const readOnly = (files: Readonly<Record<string, string | Uint8Array>>) =>
  readRecords(inputsFrom(withProject(files)).files, [], schemas);

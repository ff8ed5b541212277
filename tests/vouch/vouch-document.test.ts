import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import type { Document } from '../../src/document/model.ts';
import { analyse } from '../../src/pipeline.ts';
import { vouchDocument } from '../../src/views/vouch-document.ts';
import { vouch } from '../../src/vouch/vouch.ts';
import { writeText } from '../../src/writers/text/write-text.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';

const analysis = analyse(inputsFrom(readTree('content')));

const documentOf = (id: string, from = analysis): Document => {
  const report = vouch(id, from);
  if (!report) throw new Error(`no ${id}`);
  return vouchDocument({
    reports: [report],
    project: from.project.fields,
    graph: from.graph,
    contentDigest: '0'.repeat(64),
    asOf: from.asOf,
    toolVersion: from.toolVersion,
  });
};
const textOf = (id: string): string => writeText(documentOf(id), { width: 80, colour: false });

describe('the report of a walk at 80 columns', () => {
  // Every eighth record, and the first of each type.
  const types = new Set<string>();
  const some = [...analysis.graph.records.values()]
    .filter(({ type }, index) => (!types.has(type) && types.add(type) !== undefined) || index % 8 === 0)
    .map(({ id }) => id);

  test.each(some)('%s: no line is wider, no digest is broken, and the caution stands at the foot', (id) => {
    const report = vouch(id, analysis);
    const out = textOf(id);
    for (const line of out.split('\n')) expect(stringWidth(line)).toBeLessThanOrEqual(80);
    const steps = [report?.claim, ...(report?.down ?? [])];
    for (const digest of [
      ...steps.map((step) => step?.digest),
      ...(report?.rawData ?? []).map((raw) => raw.digest),
    ])
      expect(out).toContain(digest);
    expect(out.replace(/\s+│?\s*/g, ' ')).toContain(
      'It does not say that they are true, that the device is safe, or that the file complies',
    );
  });

  test('says first what is claimed, how it stands, what shows it, and what it answers to', () => {
    const head = textOf('DI-09').split('1.1 The record')[0] ?? '';
    expect(head).toMatch(/^Claimed {6}The tip shall stay on the barrel/m);
    expect(head).toContain('tip retention force ≥ 30 N');
    expect(head).toMatch(/^It stands {4}passed: VR-09 passed$/m);
    expect(head).toMatch(/^Shown by {5}DI-09 › VP-09 › VR-09$/m);
    expect(head).toMatch(/^Answers to {3}RC-05, RK-03, UN-08$/m);
  });

  test('a claim is its wording, and leads down to the readings that bear it', () => {
    const out = textOf('CM-01');
    const head = (out.split('1.1 The record')[0] ?? '').replace(/\s+/g, ' ');
    expect(head).toContain('Claimed 17 to 23 mm³ at a squeeze, 475 to 530 mm³ in 25 squeezes');
    expect(head).toContain('squeeze force ≤ 25 N');
    expect(head).toContain('Measured in VR-01, VR-01A, VR-03, VR-04');
    expect(out.replace(/\s+/g, ' ')).toContain('Stated in DO-09, DOC-28');
  });

  test('its cover tells who approved the record, and which role is missing', () => {
    const files = new Map<string, string | Uint8Array>(readTree('content'));
    const text = new TextDecoder().decode(files.get('design-inputs/DI-09.md') as Uint8Array);
    files.set('design-inputs/DI-09.md', text.replaceAll('role: design engineer', 'role: test engineer'));
    const signed = (from: typeof analysis) =>
      documentOf('DI-09', from).signatures.map(({ role, meaning, state }) => [role, meaning, state]);
    expect(signed(analysis)).toEqual([
      ['design engineer', 'DI-09: confirmed after RK-03 was estimated anew', 'in force'],
      ['quality lead', 'DI-09: confirmed after RK-03 was estimated anew', 'in force'],
    ]);
    expect(signed(analyse(inputsFrom(files), []))).toContainEqual(['design engineer', 'DI-09', 'unsigned']);
  });

  test('prints the rows of the results that count, and not those of a result that was repeated', () => {
    const out = textOf('DI-09');
    expect(out).toContain('Raw data of VR-09B: first and last 3 of 30 rows');
    expect(out).toContain('L003-10  L003');
    expect(out).not.toContain('Raw data of VR-09A:');
    expect(out).toContain('VR-09A (repeated)');
  });
});

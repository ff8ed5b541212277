import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { recordDigest, sha256Hex } from '../../src/graph/digest.ts';
import { analyse } from '../../src/pipeline.ts';
import { readOnly } from '../records/read-files.ts';
import { processorMilliseconds } from '../support/processor-time.ts';
import { inputsFrom } from '../support/technical-file.ts';
import { recordOf } from './small-graphs.ts';

const base = `---
id: UN-01
type: user-need
title: A need
status: draft
needed_by: [dental surgeon, assistant]
states: { shelf_life: 3 years, "dose": "0.5" }
---
A statement.

## Rationale

A reason.
`;

const digest = (text: string): string => {
  const [record] = readOnly({ 'a.md': text }).records;
  if (!record) throw new Error('no record');
  return recordDigest(record, undefined);
};

test('SHA-256 is that of the Secure Hash Standard', () => {
  // NIST FIPS 180-4, example of the one-block message "abc" (NIST, Examples with intermediate values).
  expect(sha256Hex(new TextEncoder().encode('abc'))).toBe(
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
  );
});

describe('the digest of a record', () => {
  test.each<[string, (text: string) => string]>([
    ['CRLF', (text) => text.replaceAll('\n', '\r\n')],
    ['a byte-order mark', (text) => `\ufeff${text}`],
    [
      'blanks at line ends',
      (text) => text.replaceAll('.\n', '. \t\n').replace('title: A need', 'title: A need   '),
    ],
    ['blank lines around the body', (text) => `${text.replace('---\nA st', '---\n\n\n  \nA st')}\n\n  \n`],
    ['comments', (text) => text.replace('title:', '# why\ntitle:').replace('draft', 'draft # so far')],
    ['quoting', (text) => text.replace('title: A need', "title: 'A need'").replace('"0.5"', "'0.5'")],
    [
      'flow and block form',
      (text) =>
        text.replace(
          'needed_by: [dental surgeon, assistant]',
          'needed_by:\n  - dental surgeon\n  - assistant',
        ),
    ],
    [
      'the order of fields',
      (text) => text.replace('id: UN-01\n', '').replace('status: draft\n', 'status: draft\nid: UN-01\n'),
    ],
    [
      'the order inside fields',
      (text) =>
        text.replace('{ shelf_life: 3 years, "dose": "0.5" }', '{ dose: "0.5", shelf_life: 3 years }'),
    ],
    ['the status', (text) => text.replace('draft', 'approved')],
    [
      'approvals',
      (text) =>
        text.replace(
          'status:',
          `approvals: [{ role: a, name: b, meaning: c, date: 2026-01-01, digest: "${'0'.repeat(64)}" }]\nstatus:`,
        ),
    ],
  ])('is not changed by %s', (_, change) => {
    expect(change(base)).not.toBe(base);
    expect(digest(change(base))).toBe(digest(base));
  });

  test.each<[string, (text: string) => string]>([
    ['the title', (text) => text.replace('A need', 'A  need')],
    ['the case of a letter', (text) => text.replace('A statement', 'a statement')],
    [
      'the order of a list',
      (text) => text.replace('[dental surgeon, assistant]', '[assistant, dental surgeon]'),
    ],
    ['text in place of a number', (text) => text.replace('"0.5"', '0.5')],
    ['a field more', (text) => text.replace('status', 'colour: red\nstatus')],
    ['a blank within a line of the body', (text) => text.replace('A reason', 'A  reason')],
    ['an indented first line', (text) => text.replace('---\nA st', '---\n    A st')],
    ['a blank line within the body', (text) => text.replace('A reason.', 'A reason.\n\nAnother.')],
    ['a line of the body', (text) => text.replace('## Rationale\n', '')],
    ['the id', (text) => text.replace('UN-01', 'UN-02')],
  ])('is changed by %s', (_, change) => {
    expect(digest(change(base))).not.toBe(digest(base));
  });

  test('tells any two contents apart, and only those', () => {
    const value = fc.oneof(
      fc.string({ maxLength: 3 }),
      fc.integer({ min: -3, max: 3 }),
      fc.boolean(),
      fc.constant(null),
      fc.array(fc.integer({ min: 0, max: 2 }), { maxLength: 3 }),
      fc.dictionary(fc.constantFrom('x', 'y'), fc.integer({ min: 0, max: 2 })),
    );
    const fields = fc.dictionary(fc.constantFrom('a', 'b', 'c'), value);
    const of = (content: Record<string, unknown>, body: string): string =>
      recordDigest(recordOf({ id: 'A-1', type: 'n', fields: content, body }), undefined);
    const canonical = (content: unknown): string =>
      JSON.stringify(content, (_, inner) =>
        inner !== null && typeof inner === 'object' && !Array.isArray(inner)
          ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
          : inner,
      );
    fc.assert(
      fc.property(fields, fields, (one, two) => {
        expect(of(one, 'b') === of(two, 'b')).toBe(canonical(one) === canonical(two));
        const turned = Object.fromEntries(Object.entries(one).reverse());
        expect(of(turned, 'b')).toBe(of(one, 'b'));
      }),
      { seed: 20260727, numRuns: 1_000 },
    );
  });

  test('is the same in every run', () => {
    const files = new Map([
      ['plinth.yaml', 'device: { name: a, maker: b }\n'],
      ['a.md', base],
    ]);
    const one = analyse(inputsFrom(files), []).approvals.digests.get('UN-01');
    expect(analyse(inputsFrom(files), []).approvals.digests.get('UN-01')).toBe(one);
    expect(one).toMatch(/^[0-9a-f]{64}$/);
  });

  test('takes a line of blanks in its stride', () => {
    const start = processorMilliseconds();
    digest(base.replace('A reason', `A${' '.repeat(400_000)}reason`));
    expect(processorMilliseconds() - start).toBeLessThan(3_000);
  });
});

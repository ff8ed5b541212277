import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { anchorBookmark, headingAnchor, recordBookmark } from '../../src/document/anchors.ts';
import { replaceUnprintable } from '../../src/document/clean-text.ts';
import { documentText } from '../../src/document/document-text.ts';
import { createCounters, findTargets } from '../../src/document/numbering.ts';
import { sampleDocument } from '../writers/sample-document.ts';

describe('bookmark names', () => {
  test('are the id with low lines', () => {
    expect(recordBookmark('VP-09A')).toBe('rec_VP_09A');
    expect(anchorBookmark('limits-of-force')).toBe('to_limits_of_force');
  });

  test('differ for ids that look alike', () => {
    const ids = [
      'A-1',
      'A_1',
      'A.1',
      'A 1',
      'Ä-1',
      'a-1',
      'A--1',
      `A-${'1'.repeat(80)}`,
      `A-${'1'.repeat(81)}`,
    ];
    expect(new Set(ids.map(recordBookmark)).size).toBe(ids.length);
  });

  // From memory: Word keeps names of up to 40 letters, digits and low lines that start with a letter.
  test('keep to what Word accepts', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (id) => {
        expect(recordBookmark(id)).toMatch(/^[A-Za-z][A-Za-z0-9_]{0,39}$/);
      }),
      { seed: 3 },
    );
  });
});

test('heading anchors are words joined by hyphens, each given once', () => {
  const taken = new Set<string>();
  expect(['Scope', '  Scope!', '???', 'DI-09: ≥ 30 N'].map((each) => headingAnchor(each, taken))).toEqual([
    'scope',
    'scope-2',
    'section',
    'di-09-30-n',
  ]);
});

test('headings count per level and never skip one', () => {
  const counters = createCounters();
  const shown = [1, 2, 2, 1, 3, 3, 6, 2, 1].map((level) => counters.heading(level).number);
  expect(shown).toEqual(['1', '1.1', '1.2', '2', '2.1', '2.1.1', '2.1.1.1', '2.2', '3']);
});

test('targets have the labels that readers see', () => {
  const { anchors, recordIds } = findTargets(sampleDocument);
  expect([...anchors].map(([anchor, { label }]) => `${anchor}: ${label}`)).toEqual([
    'purpose: section 1',
    'rules: section 1.1',
    'results: section 2',
    'vp-09a: section 2.1',
    'limits: Table 1',
    'retention: Figure 1',
    'tip: Figure 2',
    'trace: section 3',
    'matrix: Table 2',
  ]);
  expect(recordIds.has('VP-09A') && recordIds.has('DI-18') && !recordIds.has('VP-99')).toBe(true);
});

test('the text of a document reads in order, labels filled in', () => {
  const lines = documentText(sampleDocument).split('\n');
  expect(lines).toContain('Table 1: Tolerance limits by protocol');
  expect(lines).toContain('Figure 1: Tip retention by lot, in newtons');
  expect(lines.find((line) => line.startsWith('This summary'))).toContain(
    'of Table 2 and the records in section 2.',
  );
  expect(lines.at(-1)).toBe('Strips are cut by template; see the drawing.');
});

// Unicode Standard Annex 9, table 4: the explicit formatting characters.
test.each([0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069])(
  'U+%i, which turns the text around it, is replaced and counted',
  (code) => {
    expect(replaceUnprintable(`a${String.fromCodePoint(code)}b`)).toEqual({ text: 'a\ufffdb', replaced: 1 });
  },
);

test('marks of direction, joiners and the neighbours of what is replaced stay', () => {
  const kept = '\u200c\u200d\u200e\u200f\u061c\u2029\u202f\u2065\u206a';
  expect(replaceUnprintable(kept)).toEqual({ text: kept, replaced: 0 });
});

// XML 1.0 (Fifth Edition), production 2: Char.
test('what XML cannot hold is replaced and counted', () => {
  expect(replaceUnprintable('a\u0000\u0008\u000b\u001f\ufffe\ud800b\udc00')).toEqual({
    text: 'a\ufffd\ufffd\ufffd\ufffd\ufffd\ufffdb\ufffd',
    replaced: 7,
  });
  expect(replaceUnprintable('\t\n\r\u0085\ud83d\ude00é')).toEqual({
    text: '\t\n\r\u0085\ud83d\ude00é',
    replaced: 0,
  });
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import { compile } from './compile.ts';

test('thousands of nested quotes neither throw nor go missing', () => {
  const { blocks, footnotes, findings } = compile(`${'>'.repeat(3000)} deep`);
  expect(findings.length).toBeGreaterThan(0);
  expect(documentText({ blocks, footnotes })).toContain('deep');
});

test('thousands of nested emphases neither throw nor go missing', () => {
  const { blocks, footnotes, findings } = compile(`${'**a '.repeat(500)}deep${' b**'.repeat(500)}`);
  expect(findings.length).toBeGreaterThan(0);
  expect(documentText({ blocks, footnotes })).toContain('deep');
});

const pieces = fc.constantFrom(
  ...[
    '# ',
    '- ',
    '> ',
    '```plinth x\n',
    '```',
    ':::landscape\n',
    ':::',
    '::page-break',
    '[^1]',
    '[^1]: ',
    '|',
    '|-|',
    '\n',
    '\n\n',
  ],
  ...[
    '<b>',
    '<!--',
    '-->',
    '[a](',
    ')',
    '![',
    ']',
    ':value[',
    '{#x}',
    'VP-09A',
    '\\',
    '&#0;',
    '\u0000',
    '\ud800',
    'word ',
  ],
);

test('never throws, whatever the body', () => {
  fc.assert(
    fc.property(
      fc.array(fc.oneof(pieces, fc.string({ unit: 'binary', maxLength: 5 })), {
        maxLength: 30,
      }),
      (parts) => {
        const { blocks, footnotes } = compile(parts.join(''));
        expect(documentText({ blocks, footnotes })).not.toContain('\u0000');
      },
    ),
    { numRuns: 300, seed: 1 },
  );
});

test('every word of plain prose is kept', () => {
  const words = fc.array(fc.stringMatching(/^[a-z]{1,8}$/), {
    minLength: 1,
    maxLength: 20,
  });
  fc.assert(
    fc.property(words, fc.constantFrom('', '# ', '- ', '> ', '1. '), (list, start) => {
      const { blocks, footnotes, findings } = compile(start + list.join(' '));
      expect(findings).toEqual([]);
      expect(documentText({ blocks, footnotes })).toBe(list.join(' '));
    }),
    { numRuns: 100, seed: 2 },
  );
});

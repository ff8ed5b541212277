import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lineDifferences } from '../../src/cli/line-differences.ts';

test.each([
  ['a\nb\nc', 'a\nb\nc', []],
  ['a\nb\nc', 'a\nx\ny\nb\nc', ['+x', '+y']],
  ['a\nb\nc', 'a\nx\nc', ['-b', '+x']],
  ['a\r\nb', 'a\r\nb\r\nb', ['+b']],
  ['a\nb\na', 'a\nb\nb\na', ['+b']],
])('%j to %j', (before, after, expected) => {
  expect(lineDifferences(before, after)).toEqual(expected);
});

test('taking away and putting in what it says leads from the one to the other', () => {
  const lines = fc.array(fc.constantFrom('a', 'b', 'c', 'd'), { minLength: 1, maxLength: 8 });
  fc.assert(
    fc.property(lines, lines, (before, after) => {
      const differences = lineDifferences(before.join('\n'), after.join('\n'));
      const count = (list: readonly string[], line: string): number =>
        list.filter((each) => each === line).length;
      for (const line of ['a', 'b', 'c', 'd'])
        expect(count(before, line) - count(differences, `-${line}`) + count(differences, `+${line}`)).toBe(
          count(after, line),
        );
    }),
  );
});

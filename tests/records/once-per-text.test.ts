import { expect, test } from 'vitest';
import { oncePerText } from '../../src/records/once-per-text.ts';

test('a text is read once, and again after twenty thousand others', () => {
  const reads: string[] = [];
  const lengthOf = oncePerText((text) => {
    reads.push(text);
    return text.length;
  });
  expect([lengthOf('one'), lengthOf('three'), lengthOf('one')]).toEqual([3, 5, 3]);
  expect(reads).toEqual(['one', 'three']);
  for (let index = 0; index < 20_000; index += 1) lengthOf(String(index));
  expect(lengthOf('one')).toBe(3);
  expect(reads.filter((text) => text === 'one')).toHaveLength(2);
});

import { expect, test } from 'vitest';
import { onOneLine, wordsOfCell } from '../../src/site/cell-words.ts';

test('lines of a cell stay apart where they are put on one', () => {
  expect(wordsOfCell(['S4, O3', 0, ['r', 'RC-05', '../records/RC-05.html']])).toBe('S4, O3; RC-05');
  expect(onOneLine(['Shown.', ' By VR-09B ', ''])).toBe('Shown. By VR-09B');
  expect(wordsOfCell(['one ', 'line'])).toBe('one line');
});

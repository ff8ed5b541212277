import { describe, expect, test } from 'vitest';
import { headingAt } from '../../src/records/section-location.ts';

const headings = [
  { words: 'Scope', level: 1 },
  { words: 'Risk control', level: 1 },
  { words: 'Risk', level: 2 },
  { words: 'Results', level: 1 },
];

describe('the heading that a location names', () => {
  test.each([
    ['section Risk control', 1],
    ['Section risk control, last paragraph', 1],
    ['section Risk', 2],
    ['sections Scope and Results', 0],
    ['section 2.1', 2],
    ['section 3, table 1', 3],
  ])('%s', (location, index) => expect(headingAt(location, headings)).toBe(index));

  test.each(['section Riskful things', 'section 9', 'item 23.2(a)', 'Scope', ''])('none: %s', (location) =>
    expect(headingAt(location, headings)).toBeUndefined(),
  );
});

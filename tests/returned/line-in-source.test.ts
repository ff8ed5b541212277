import { expect, test } from 'vitest';
import { lineInSource } from '../../src/returned/line-in-source.ts';

const file = [
  '---',
  'id: DOC-1',
  '---',
  '',
  '## Residual risks {#residual}',
  '',
  'The seal was pulled on strips of 15 mm[^strip], as the',
  'standard asks, at :value[VP-01/speed] and room temperature.',
  '',
  '[^strip]: Cut by hand, see the photographs.',
].join('\n');

test.each([
  [
    'a paragraph with a footnote and a value',
    'The seal was pulled on strips of 15 mm1, as the standard asks, at 200 mm/min and room temperature.',
    'strips of 15 mm',
    7,
  ],
  [
    'its second line',
    'The seal was pulled on strips of 15 mm, as the standard asks, at 200 mm/min and room temperature.',
    'room temperature',
    8,
  ],
  ['a heading with a name of its own', '4.2 Residual risks', 'Residual risks', 5],
  ['a footnote', 'Cut by hand, see the photographs.', 'by hand', 10],
])('%s comes home to its line', (_, paragraph, passage, line) => {
  expect(lineInSource(file, paragraph, passage)).toBe(line);
});

import { expect, test } from 'vitest';
import { readSource, type WantedParagraph } from '../../src/returned/line-in-source.ts';

const file = [
  '---',
  'id: DOC-1',
  'type: document',
  'revisions:',
  '  - change: "The residual risks were told anew, and their purpose."',
  'statement: The tip shall stay',
  '  on the barrel.',
  '---',
  '',
  '## Residual risks {#residual}',
  '',
  'The seal was pulled on strips of 15 mm[^strip], as the',
  'standard asks, at :value[VP-01/speed] and room temperature.',
  '',
  '[^strip]: Cut by hand, see the photographs.',
  '',
  'VR-09A failed: the bound was :value[VR-09A/bound], below the limit.',
  '',
  '2 of the :count[user-need] needs are met by the label alone.',
  '',
  'Table: Plans without failures {#plans}',
  '',
  '| Severity | Units |',
  '| --- | ---: |',
  '| S3 | 59 |',
  '| S4 | 59 |',
  '',
  '```plinth records',
  'type: user-need',
  'caption: Needs of the users',
  'anchor: needs',
  '```',
  '',
  '![A tip, seen from the side](tip.svg "The tip and its undercut {#tip}")',
].join('\n');
const source = readSource(file);
const lines = (wanted: Partial<WantedParagraph> & { readonly text: string }): readonly number[] =>
  source.sure({ form: 'text', ...wanted }).map(({ line }) => line);

test.each<readonly [string, WantedParagraph, number]>([
  [
    'a paragraph with a footnote and a value',
    {
      text: 'The seal was pulled on strips of 15 mm1, as the standard asks, at 200 mm/min and room temperature.',
      form: 'text',
      passage: 'strips of 15 mm',
    },
    12,
  ],
  [
    'its second line',
    {
      text: 'The seal was pulled on strips of 15 mm, as the standard asks, at 200 mm/min and room temperature.',
      form: 'text',
      passage: 'room temperature',
    },
    13,
  ],
  ['a heading with a name of its own', { text: '4.2 Residual risks', form: 'heading' }, 10],
  ['a footnote', { text: 'Cut by hand, see the photographs.', form: 'text' }, 15],
  [
    'a paragraph that begins with the id of a record',
    { text: 'VR-09A failed: the bound was 28.41 N, below the limit.', form: 'text' },
    17,
  ],
  [
    'a paragraph that begins with a number',
    { text: '2 of the 14 needs are met by the label alone.', form: 'text' },
    19,
  ],
  [
    'the caption of a table that the author wrote',
    { text: 'Table 1: Plans without failures', form: 'caption' },
    21,
  ],
  ['the caption of a view', { text: 'Table 2: Needs of the users', form: 'caption' }, 30],
  ['the caption of an image', { text: 'Figure 1: The tip and its undercut', form: 'caption' }, 34],
  ['a short cell, by its row', { text: 'S4', form: 'cell', row: ['S4', '59'] }, 26],
  ['a cell that another row has too', { text: '59', form: 'cell', row: ['S3', '59'] }, 25],
  [
    'a text over several lines of the front matter',
    { text: 'The tip shall stay on the barrel.', form: 'text', passage: 'the barrel' },
    7,
  ],
])('%s comes home to its line', (_, wanted, line) => {
  expect(lines(wanted)).toEqual([line]);
});

test('what a file does not say has no line in it', () => {
  expect(lines({ text: 'Revision history', form: 'heading' })).toEqual([]);
  expect(lines({ text: 'document', form: 'cell', row: ['Document', 'document'] })).toEqual([]);
  expect(lines({ text: 'Severity', form: 'heading' })).toEqual([]);
});

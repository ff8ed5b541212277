import { expect, test } from 'vitest';
import { analyse } from '../../src/pipeline.ts';
import { recordTexts } from '../../src/records/record-texts.ts';
import { inputsFrom } from '../support/technical-file.ts';

const file = `---
id: UN-01
type: user-need
title: A need with a mark here
status: draft
needed_by: ["a mark", 'b mark', "c \\" mark"]
use_environment: >-
  a long text
  with a mark
---
A body \`mark\` with
a mark.

## Rationale
None.
`;

const record = analyse(
  inputsFrom(
    new Map([
      ['plinth.yaml', 'device: { name: a device, maker: a maker }\n'],
      ['UN-01.md', file],
    ]),
  ),
  [],
).graph.record('UN-01');

test('every passage of a text has the place of its words in the file', () => {
  if (!record) throw new Error('the record was not read');
  const lines = file.split('\n');
  const found = recordTexts(record).flatMap((text) => {
    const offset = text.text.indexOf('mark');
    return offset < 0 ? [] : [{ path: text.path, place: text.placeAt(offset, 4) }];
  });
  const exact = found.filter(
    ({ place }) => lines[place.line - 1]?.slice(place.column - 1, place.column + 3) === 'mark',
  );
  expect(exact.map(({ path, place }) => [path?.join('.') ?? 'body', place.line])).toEqual([
    ['title', 4],
    ['needed_by.0', 6],
    ['needed_by.1', 6],
    ['body', 12],
  ]);
  // With escapes or over several lines the place is that of the whole field.
  const whole = found.filter((each) => !exact.includes(each));
  expect(whole.map(({ path, place }) => [path?.join('.'), place.line])).toEqual([
    ['needed_by.2', 6],
    ['use_environment', 7],
  ]);
});

import { expect, test } from 'vitest';
import { assessImpact } from '../../src/change/impact.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';

const demonstration = readTree('content');
const before = analyse(inputsFrom(demonstration));

const impactOf = (path: string, edit: (text: string) => string) => {
  const text = new TextDecoder().decode(demonstration.get(path));
  expect(edit(text)).not.toBe(text);
  const after = analyse(
    inputsFrom(new Map<string, string | Uint8Array>([...demonstration, [path, edit(text)]])),
  );
  return assessImpact({
    before,
    after,
    beforeName: { name: 'before' },
    afterName: { name: 'after' },
    textsBefore: new Map(),
    textsAfter: new Map(),
    unseen: [],
  });
};

test('other criteria ask for every risk to be evaluated again', () => {
  const { risks } = impactOf('risks/RP-01.md', (text) => text.replace('    S3: O2', '    S3: O1'));
  expect(risks).toHaveLength(12);
  expect(risks[0]?.reasons).toContainEqual({
    text: 'the criteria that it is judged by (RP-01) changed',
    path: ['RK-01', 'RP-01'],
  });
});

test('another word in the plan does not, and lapses what relies on the plan', () => {
  const impact = impactOf('risks/RP-01.md', (text) => text.replace('every three months', 'every two months'));
  expect(impact.risks).toEqual([]);
  expect(JSON.stringify(impact)).toContain('RR-01');
});

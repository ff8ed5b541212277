import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { projectRoot, readTree } from '../support/technical-file.ts';
import { seal } from './seal.ts';

/** After an edit of the demonstration file: PLINTH_WRITE=1 npx vitest run --config tests/vitest.config.ts tests/demo/sealed.test.ts */
test('the digests in content/ fit its records and raw data', () => {
  const tree = readTree('content');
  expect(tree.size).toBeGreaterThan(100);
  const sealed = seal(new Map(tree));
  const stale: string[] = [];
  for (const [path, content] of sealed) {
    if (typeof content !== 'string' || content === new TextDecoder().decode(tree.get(path))) continue;
    if (process.env['PLINTH_WRITE'] === '1') writeFileSync(join(projectRoot, 'content', path), content);
    else stale.push(path);
  }
  expect(stale).toEqual([]);
});

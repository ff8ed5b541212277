import { cpSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { projectRoot } from '../support/technical-file.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

test('two builds in different folders, time zones and locales give the same bytes', () => {
  const build = (environment: Readonly<Record<string, string>>): ReadonlyMap<string, string> => {
    const folder = emptyFolder();
    cpSync(join(projectRoot, 'content'), join(folder, 'content'), { recursive: true });
    const { code, out, error } = runPlinth(folder, ['build'], environment);
    expect(`${error}${code === 0 ? '' : out}`).toBe('');
    return new Map(
      readdirSync(join(folder, 'build'), { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => join(entry.parentPath, entry.name).slice(folder.length))
        .sort()
        .map((name) => [name, readFileSync(join(folder, name)).toString('base64')]),
    );
  };
  const first = build({ TZ: 'UTC', LANG: 'C', LC_ALL: 'C' });
  const second = build({ TZ: 'Asia/Tokyo', LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8' });
  expect(first.size).toBeGreaterThan(400);
  expect([...second.keys()]).toEqual([...first.keys()]);
  for (const [name, bytes] of first) expect(second.get(name) === bytes, `${name} differs`).toBe(true);
}, 240_000);

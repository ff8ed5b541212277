import { spawnSync } from 'node:child_process';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { approveCommand, onlyRole } from '../../src/graph/approve-command.ts';

test('ordinary words are easy to read', () => {
  expect(approveCommand(['DI-01', 'DI-02'], 'quality lead')).toBe(
    'plinth approve DI-01 DI-02 --role "quality lead" --name "FULL NAME"',
  );
  expect(approveCommand(['--because', 'DI-01'])).toBe(
    'plinth approve --because DI-01 --role ROLE --name "FULL NAME"',
  );
  expect([onlyRole([]), onlyRole(['a', 'a']), onlyRole(['a', 'b'])]).toEqual([undefined, 'a', undefined]);
});

test('a shell takes every role as one word, whatever stands in it', () => {
  const roles = fc.sample(
    fc.oneof(
      fc.string({
        minLength: 1,
        unit: fc.constantFrom('a', ' ', '"', "'", '$', '`', '\\', ';', '!', '*', '&', '(', '#', '~'),
      }),
      fc.string({ minLength: 1, unit: 'grapheme' }).filter((text) => !/[\0\n]/.test(text)),
    ),
    300,
  );
  const script = roles
    .map((role) => approveCommand(['X-1'], role).replace(/^plinth/, "printf '%s\\n'"))
    .join('\n');
  const { stdout, status } = spawnSync('sh', ['-c', script], { encoding: 'utf8' });
  expect(status).toBe(0);
  expect(stdout.split('\n').slice(0, -1)).toEqual(
    roles.flatMap((role) => ['approve', 'X-1', '--role', role, '--name', 'FULL NAME']),
  );
});

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { startWorkers, usefulWorkers } from '../../src/host/workers.ts';
import { emptyFolder } from '../cli/run-plinth.ts';

test('threads are of use where there are processors and tasks for them', () => {
  expect(usefulWorkers(40, 1)).toBe(0);
  expect(usefulWorkers(2, 8)).toBe(0);
  expect(usefulWorkers(40, 2)).toBe(2);
  expect(usefulWorkers(4, 8)).toBe(2);
  expect(usefulWorkers(40, 64)).toBe(4);
});

test('each task gets its own answer, a fault stays with its task, and a thread that dies is told', async () => {
  const program = join(emptyFolder(), 'program.mjs');
  writeFileSync(
    program,
    `import { parentPort } from 'node:worker_threads';
     parentPort.on('message', ({ id, task }) => {
       if (task === 'die') throw new Error('the thread died');
       if (task < 0) parentPort.postMessage({ id, error: new Error('negative') });
       else setTimeout(() => parentPort.postMessage({ id, result: task * 2 }), 20 - task);
     });`,
  );
  const pool = startWorkers<number | string, number>(program, 2);
  const tasks = [9, 1, 12, 3, 7];
  expect(await Promise.all(tasks.map((task) => pool.run(task)))).toEqual(tasks.map((task) => task * 2));
  await expect(pool.run(-1)).rejects.toThrow('negative');
  expect(await pool.run(4)).toBe(8);
  await expect(pool.run('die')).rejects.toThrow('the thread died');
  await pool.close();
});

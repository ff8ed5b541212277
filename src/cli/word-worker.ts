import { parentPort } from 'node:worker_threads';
import type { Document } from '../document/model.ts';
import type { WorkerAnswer, WorkerRequest } from '../host/workers.ts';
import type { HouseStyle } from '../house/house-style.ts';
import { makeReady, writeWord } from './write-word.ts';

/** A document to write, and the looks that it is to have. */
export interface WordTask {
  readonly document: Document;
  readonly house: HouseStyle | undefined;
}

// What takes time to load is loaded while the command still compiles its documents.
await makeReady();

// The program of a thread: it writes Word files for the command that started it.
parentPort?.on('message', async ({ id, task }: WorkerRequest<WordTask>) => {
  let answer: WorkerAnswer<Uint8Array>;
  try {
    answer = { id, result: await writeWord(task.document, task.house) };
  } catch (error) {
    answer = { id, error };
  }
  parentPort?.postMessage(answer);
});

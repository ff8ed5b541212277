import type { Document } from '../document/model.ts';
import { ownProgram } from '../host/own-files.ts';
import { startWorkers, usefulWorkers, type WorkerPool } from '../host/workers.ts';
import type { HouseStyle } from '../house/house-style.ts';
import type { WordTask } from './word-worker.ts';
import { writeWord } from './write-word.ts';

/** What writes the Word files of a run. */
export interface WordWriters {
  readonly write: (document: Document, house: HouseStyle | undefined) => Promise<Uint8Array>;
  readonly close: () => Promise<void>;
}

/**
 * Writers for a number of documents: in threads of their own where that is quicker, for laying out pages takes most of
 * the time of a build. The bytes are the same either way.
 */
export const createWordWriters = (documents: number): WordWriters => {
  const program = ownProgram('word-worker.js');
  const count = usefulWorkers(documents);
  if (program === undefined || count === 0) return { write: writeWord, close: async () => undefined };
  let pool: WorkerPool<WordTask, Uint8Array> | undefined;
  return {
    // A build that leaves all files as they are starts no thread.
    write: (document, house) => {
      pool ??= startWorkers<WordTask, Uint8Array>(program, count);
      return pool.run({ document, house });
    },
    close: async () => pool?.close(),
  };
};

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
 *
 * @param isAnew whether files are sure to be written: threads then make ready while the documents are compiled
 */
export const createWordWriters = (
  documents: number,
  { isAnew }: { readonly isAnew: boolean },
): WordWriters => {
  const program = ownProgram('word-worker.js');
  const count = usefulWorkers(documents);
  if (program === undefined || count === 0) return { write: writeWord, close: async () => undefined };
  // A build that leaves all files as they are starts no thread.
  let pool: WorkerPool<WordTask, Uint8Array> | undefined;
  const started = (): WorkerPool<WordTask, Uint8Array> => {
    pool ??= startWorkers<WordTask, Uint8Array>(program, count);
    return pool;
  };
  if (isAnew) started();
  return {
    write: (document, house) => started().run({ document, house }),
    close: async () => pool?.close(),
  };
};

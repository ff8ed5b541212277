import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';

/** Hands tasks to threads that each run the same program. */
export interface WorkerPool<Task, Result> {
  /** The answer to one task. Rejects where the program threw. */
  readonly run: (task: Task) => Promise<Result>;
  /** Ends the threads. No task may be under way. A thread without a task does not keep the program from ending. */
  readonly close: () => Promise<void>;
}

/** What a thread is asked, and what it answers. */
export interface WorkerRequest<Task> {
  readonly id: number;
  readonly task: Task;
}
export type WorkerAnswer<Result> =
  | { readonly id: number; readonly result: Result }
  | { readonly id: number; readonly error: unknown };

/** Threads that are of use here for a number of tasks: as many as there are processors, and none for a few tasks. */
export const usefulWorkers = (tasks: number, processors: number = availableParallelism()): number =>
  tasks < 4 || processors < 2 ? 0 : Math.min(processors, 4, Math.ceil(tasks / 2));

/**
 * Starts threads. Each gets one task at a time, in the order in which they were asked; answers come back in any order,
 * so whoever asks keeps its own.
 *
 * @param program the file that the threads run: it answers each `WorkerRequest` by a `WorkerAnswer`
 */
export const startWorkers = <Task, Result>(program: string, count: number): WorkerPool<Task, Result> => {
  interface Waiting {
    readonly task: Task;
    readonly done: (result: Result) => void;
    readonly failed: (error: unknown) => void;
  }
  const queue: Waiting[] = [];
  const idle: Worker[] = [];
  const busy = new Map<Worker, Waiting>();
  let nextId = 0;
  const next = (): void => {
    while (queue.length > 0 && idle.length > 0) {
      const worker = idle.pop() as Worker;
      const waiting = queue.shift() as Waiting;
      busy.set(worker, waiting);
      worker.ref();
      worker.postMessage({ id: nextId++, task: waiting.task } satisfies WorkerRequest<Task>);
    }
  };
  const fail = (worker: Worker, error: unknown): void => {
    const waiting = busy.get(worker);
    busy.delete(worker);
    waiting?.failed(error);
  };
  const workers = Array.from({ length: count }, () => {
    const worker = new Worker(program);
    worker.on('message', (answer: WorkerAnswer<Result>) => {
      if ('error' in answer) fail(worker, answer.error);
      else {
        const waiting = busy.get(worker);
        busy.delete(worker);
        waiting?.done(answer.result);
      }
      worker.unref();
      idle.push(worker);
      next();
    });
    worker.on('error', (error) => {
      fail(worker, error);
      for (const waiting of queue.splice(0)) waiting.failed(error);
    });
    worker.unref();
    idle.push(worker);
    return worker;
  });
  return {
    run: (task) =>
      new Promise((done, failed) => {
        queue.push({ task, done, failed });
        next();
      }),
    close: async () => {
      await Promise.all(workers.map((worker) => worker.terminate()));
    },
  };
};

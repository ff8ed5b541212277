import { sha256Hex } from '../../graph/digest.ts';
import type { RecordHistories } from '../../graph/record-history.ts';
import { type FileServer, type ServedFiles, serveFiles } from '../../host/serve-files.ts';
import { watchFolder } from '../../host/watch-folder.ts';
import type { Inputs } from '../../pipeline.ts';
import type { DocumentOrigin } from '../../views/compile-document.ts';
import { analyseWithHistory, historiesOf } from '../analyse-with-history.ts';
import type { CommandRun, Request, Terminal } from '../command.ts';
import { documentsOf, originOf } from '../documents.ts';
import { impactSince } from '../impact-since.ts';
import { numberOption } from '../number-options.ts';
import { Refusal } from '../refusal.ts';
import { siteFiles } from '../site-of.ts';
import { findFolder, historyOptions, readInputs } from '../technical-file.ts';

interface Folder {
  readonly path: string;
  readonly shown: string;
}

/** Names a state by everything that its pages are made from, so that a page knows whether it shows the newest. */
const stateName = (inputs: Inputs, origin: DocumentOrigin | undefined): string =>
  sha256Hex(
    new TextEncoder().encode(
      JSON.stringify([
        inputs.files.map(({ path, bytes }) => [path, sha256Hex(bytes)]),
        inputs.refused.map(({ path, reason, detail }) => [path, reason, detail]),
        inputs.asOf ?? inputs.today,
        origin ? [origin.commit, origin.isDirty] : [],
      ]),
    ),
  ).slice(0, 16);

const portOf = (request: Request): number => {
  const port = numberOption(request, 'port') ?? Number.NaN;
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    throw new Refusal(
      `--port is ${request.options['port']}, expected a whole number from 0 to 65535`,
      'For example: --port 8640',
    );
  return port;
};

const openServer = async (port: number): Promise<FileServer> => {
  try {
    return await serveFiles(port);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code !== 'EADDRINUSE' && code !== 'EACCES') throw error;
    throw new Refusal(
      code === 'EACCES' ? `port ${port} may not be used` : `port ${port} is taken by another program`,
      'Name another port, or --port 0 for any that is free.',
    );
  }
};

/** What git knows changes with a commit only, so it is read once for each. */
type HistoryMemory = Map<string, RecordHistories>;

interface Compiled {
  readonly files: ServedFiles;
  readonly state: string;
  readonly said: string;
}

const compile = async (
  folder: Folder,
  request: Request,
  terminal: Terminal,
  memory: HistoryMemory,
): Promise<Compiled> => {
  const inputs = readInputs(folder, request, terminal);
  const analysis = analyseWithHistory(inputs, historyOptions(folder, request, terminal));
  const origin = originOf(folder.path);
  const state = stateName(inputs, origin);
  const commit = origin?.commit ?? '';
  const histories = memory.get(commit) ?? historiesOf(folder.path, analysis);
  memory.set(commit, histories);
  terminal.progress('Compiling documents …');
  const documents = await documentsOf(analysis, undefined, origin);
  const impact = await impactSince(folder, request, terminal);
  terminal.progress('Writing pages …');
  const files = new Map<string, Uint8Array>();
  for (const { path, content } of await siteFiles({
    analysis,
    histories,
    documents,
    origin,
    impact,
    live: state,
  }))
    files.set(path, typeof content === 'string' ? Buffer.from(content, 'utf8') : content);
  const count = analysis.findings.length + documents.reduce((sum, each) => sum + each.findings.length, 0);
  terminal.progress('');
  return { files, state, said: `${files.size} files, ${count} finding${count === 1 ? '' : 's'}` };
};

/** Resolves when the user stops the command. */
const stopped = (): Promise<void> =>
  new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });

export const run: CommandRun = async (request, terminal) => {
  const folder = findFolder(request.argument, terminal);
  const port = portOf(request);
  const memory: HistoryMemory = new Map();
  const first = await compile(folder, request, terminal, memory);
  const server = await openServer(port);
  const stop = stopped();
  server.show(first.files, first.state);
  let state = first.state;
  terminal.out(
    `${first.said}\nhttp://127.0.0.1:${server.port}/ shows ${folder.shown} and follows what you write. Only this machine can see it. Stop it with Ctrl+C.\n`,
  );
  const watch = watchFolder(folder.path, async () => {
    const start = performance.now();
    try {
      const next = await compile(folder, request, terminal, memory);
      // Also where the state is one that was shown before: a trouble that was told is then over.
      server.show(next.files, next.state);
      if (next.state === state) return;
      state = next.state;
      terminal.out(`${next.said}, in ${((performance.now() - start) / 1000).toFixed(1)} s\n`);
    } catch (error) {
      // What a user can mend must not end the command; what they cannot is a bug, and ends it.
      if (!(error instanceof Refusal)) throw error;
      terminal.progress('');
      terminal.out(`${error.message}\n${error.hint}\n`);
      server.tell(`${error.message}: ${error.hint}`);
    }
  });
  try {
    await Promise.race([stop, watch.failed]);
  } finally {
    watch.end();
    await server.close();
  }
  return 0;
};

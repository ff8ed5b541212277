import { sha256Hex } from '../../graph/digest.ts';
import type { RecordHistories } from '../../graph/record-history.ts';
import { type FileServer, serveFiles } from '../../host/serve-files.ts';
import { watchFolder } from '../../host/watch-folder.ts';
import type { Inputs } from '../../pipeline.ts';
import { projectFile } from '../../records/project.ts';
import type { DocumentOrigin } from '../../views/compile-document.ts';
import { printable } from '../../writers/report-text/printable.ts';
import { analyseWithHistory, historiesOf } from '../analyse-with-history.ts';
import type { CommandRun, Request, Terminal } from '../command.ts';
import { documentsOf, foundInDocuments, originOf } from '../documents.ts';
import { impactSince } from '../impact-since.ts';
import { type ShownState, type Trouble, withKeptPages } from '../kept-pages.ts';
import { numberOption } from '../number-options.ts';
import { Refusal } from '../refusal.ts';
import { siteOf } from '../site-of.ts';
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
  const port = numberOption(request, 'port', '8640') ?? Number.NaN;
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

interface Compiled extends ShownState {
  readonly missing: (path: string) => string;
  readonly state: string;
  /** Errors, in order of their places. */
  readonly troubles: readonly Trouble[];
  /** What keeps plinth.yaml from being read; undefined where it was. */
  readonly settings: Trouble | undefined;
  readonly isThere: (file: string) => boolean;
  readonly said: string;
}

/** The first error, those that were not there before first; empty where there is none. */
const firstError = (
  { troubles }: Compiled,
  before: readonly Trouble[],
  folder: Folder,
  findings: string,
): string => {
  const known = new Set(before.map(({ file, message }) => `${file}: ${message}`));
  const first = troubles.find(({ file, message }) => !known.has(`${file}: ${message}`)) ?? troubles[0];
  if (!first) return '';
  const path = folder.shown === '.' ? first.place : `${folder.shown}/${first.place}`;
  const more = troubles.length - 1;
  return (
    `  ${printable(`${path}: error: ${first.message}`)}\n` +
    (more === 0 ? '' : `  and ${more} more error${more === 1 ? '' : 's'}: ${findings}\n`)
  );
};

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
  const {
    files: written,
    sources,
    missing,
  } = await siteOf({ analysis, histories, documents, origin, impact, live: state });
  for (const { path, content } of written)
    files.set(path, typeof content === 'string' ? Buffer.from(content, 'utf8') : content);
  const findings = [...analysis.findings, ...(await foundInDocuments(analysis, documents))];
  const errors = findings
    .filter(({ level }) => level === 'error')
    .map(({ place: { file, line, column }, message }) => ({
      file,
      place: `${file}:${line}:${column}`,
      message,
    }));
  const there = new Set([...inputs.files, ...inputs.refused].map(({ path }) => path));
  terminal.progress('');
  return {
    files,
    sources,
    missing,
    state,
    troubles: errors,
    // Nothing of it is known where it gave no value at all.
    settings:
      (analysis.project.yaml.value ?? undefined) === undefined
        ? errors.find(({ file }) => file === projectFile)
        : undefined,
    isThere: (file) => there.has(file),
    said: `${files.size} files, ${findings.length} finding${findings.length === 1 ? '' : 's'}`,
  };
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
  server.show(first.files, first.state, first.missing);
  let { state, troubles } = first;
  let last: ShownState = first;
  const address = `http://127.0.0.1:${server.port}/`;
  const findings = `${address}findings.html`;
  terminal.out(
    `${first.said}\n${firstError(first, [], folder, findings)}${address} shows ${folder.shown} and follows what you write. Only this machine can see it. Stop it with Ctrl+C.\n`,
  );
  const watch = watchFolder(folder.path, async () => {
    const start = performance.now();
    try {
      const next = await compile(folder, request, terminal, memory);
      if (next.settings) {
        // Without its settings no page of the file would be right: what is shown stays, with the reason.
        terminal.out(firstError({ ...next, troubles: [next.settings] }, [], folder, findings));
        server.tell(`${next.settings.place}: ${next.settings.message}`);
        return;
      }
      // Also where the state is one that was shown before: a trouble that was told is then over.
      const kept = withKeptPages(last, next);
      last = kept.last;
      server.show(kept.served, next.state, next.missing);
      if (next.state === state) return;
      const seconds = ((performance.now() - start) / 1000).toFixed(1);
      terminal.out(`${next.said}, in ${seconds} s\n${firstError(next, troubles, folder, findings)}`);
      ({ state, troubles } = next);
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

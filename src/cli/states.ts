import { existsSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { StateName } from '../change/impact.ts';
import { today } from '../host/clock.ts';
import { openRepository, type Repository } from '../host/git.ts';
import { readOwnSchemas, readOwnVersion } from '../host/own-files.ts';
import { type FolderContent, readFolder } from '../host/read-folder.ts';
import { type Analysis, analyse, type Inputs } from '../pipeline.ts';
import { projectFile } from '../records/project.ts';
import type { Request, Terminal } from './command.ts';
import { Refusal } from './refusal.ts';

/** A state of a technical file that the user named, read and analysed. */
export interface OpenedState {
  readonly name: StateName;
  readonly analysis: Analysis;
  /** What could not be seen of it. */
  readonly unseen: readonly string[];
}

/** Says of a state what was left out when it was read. */
const leftOut = (
  name: string,
  { files, refused }: FolderContent,
  { unsound, graph, project }: Analysis,
): readonly string[] => {
  const ignored = project.fields.ignore ?? [];
  const known = new Set([...graph.records.values()].map((record) => record.file));
  // A conflict left by git, for one, makes a file unreadable: its record then only looks as if it were gone.
  const unread = files.filter(
    ({ path }) =>
      /\.md$/i.test(path) &&
      !known.has(path) &&
      !ignored.some((entry) => path === entry || path.startsWith(`${entry.replace(/\/+$/, '')}/`)),
  );
  return [
    ...(unread.length > 0
      ? [
          `the record${unread.length === 1 ? '' : 's'} in ${unread.length} file${unread.length === 1 ? '' : 's'} of ${name} that could not be read as records, such as ${unread[0]?.path}`,
        ]
      : []),
    ...(refused.length > 0
      ? [
          `${refused.length} file${refused.length === 1 ? '' : 's'} of ${name} that could not be read, such as ${refused[0]?.path}`,
        ]
      : []),
    ...(unsound > 0
      ? [
          `what ${unsound} record${unsound === 1 ? '' : 's'} of ${name} say${unsound === 1 ? 's' : ''}: the schema is not met`,
        ]
      : []),
  ];
};

/** Where a state lies: a folder, and there a commit or what is on the disk. */
export interface StatePlace {
  readonly folder: string;
  readonly commit?: string;
}

/**
 * Opens states of a technical file: git revisions, folders, and the folder as it is on the disk. `judge` analyses what
 * was read; without it, nothing that only the history knows is looked at.
 */
export const stateOpener = (
  folder: { readonly path: string; readonly shown: string },
  request: Request,
  terminal: Terminal,
  judge: (inputs: Inputs, place: StatePlace) => Analysis = (inputs) => analyse(inputs),
) => {
  const schemas = readOwnSchemas();
  const toolVersion = readOwnVersion();
  const asOf = request.options['as-of'];
  const opened = openRepository(folder.path);
  const open = (name: StateName, content: FolderContent, place: StatePlace): OpenedState => {
    terminal.progress(`Checking ${name.name} …`);
    const inputs = {
      ...content,
      schemas,
      toolVersion,
      today: today(),
      ...(asOf === undefined ? {} : { asOf }),
    };
    const analysis = judge(inputs, place);
    return { name, analysis, unseen: leftOut(name.name, content, analysis) };
  };

  const repository = (why: string): Repository => {
    if (opened.ok) return opened.repository;
    throw new Refusal(
      `${why}, but ${opened.reason}`,
      'Name two folders to compare, or run the command where the technical file is under git.',
    );
  };

  return {
    /** The folder as it is on the disk. */
    workTree: (): OpenedState => {
      const isDirty = opened.ok && opened.repository.isDirty();
      const head = opened.ok ? opened.repository.resolve('HEAD') : undefined;
      return open(
        {
          name: opened.ok ? 'the work tree' : folder.shown,
          ...(head && !isDirty ? { commit: head.id, date: head.committed.slice(0, 10) } : {}),
        },
        readFolder(folder.path),
        { folder: folder.path },
      );
    },
    /** A folder with a technical file, or else a revision. */
    named: (word: string): OpenedState => {
      const path = resolve(terminal.folder, word);
      if (existsSync(join(path, projectFile)) && statSync(path).isDirectory())
        return open({ name: word.replace(/(?!^)[/\\]+$/, '') }, readFolder(path), { folder: path });
      const place = repository(`"${word}" is no folder with plinth.yaml, so it should be a git revision`);
      const commit = place.resolve(word);
      if (!commit && word === 'HEAD')
        throw new Refusal(
          'the repository has no commit yet, so there is nothing to compare with',
          'Commit the technical file, or name two folders to compare.',
        );
      if (!commit)
        throw new Refusal(
          `there is no revision "${word}"${place.isShallow ? ': this clone holds only the latest commits' : ''}`,
          place.isShallow
            ? 'Fetch more of the history (git fetch --unshallow), or name a folder that holds the earlier state.'
            : 'Name a commit, branch or tag that "git log" knows, or a folder with plinth.yaml.',
        );
      const content = place.readFolder(commit.id);
      if (!content.files.some((file) => file.path === projectFile))
        throw new Refusal(
          `at ${word} there is no ${projectFile} in ${place.prefix === '' ? 'the repository' : place.prefix}`,
          'Name a revision in which the technical file was in this folder, or a folder that holds the earlier state.',
        );
      return open({ name: word, commit: commit.id, date: commit.committed.slice(0, 10) }, content, {
        folder: folder.path,
        commit: commit.id,
      });
    },
    isShallow: opened.ok && opened.repository.isShallow,
  };
};

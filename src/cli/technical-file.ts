import { existsSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { today } from '../host/clock.ts';
import { readOwnSchemas, readOwnVersion } from '../host/own-files.ts';
import { readFolder, systemMessage } from '../host/read-folder.ts';
import type { Inputs } from '../pipeline.ts';
import { projectFile } from '../records/project.ts';
import type { HistoryOptions } from './analyse-with-history.ts';
import type { Request, Terminal } from './command.ts';
import { Refusal } from './refusal.ts';

/** The folder of the technical file: as asked, else this folder, else `content`. */
export const findFolder = (
  asked: string | undefined,
  terminal: Terminal,
): { readonly path: string; readonly shown: string } => {
  if (asked !== undefined) {
    const path = resolve(terminal.folder, asked);
    if (!existsSync(path))
      throw new Refusal(
        `there is no folder "${asked}"`,
        'Correct the name, or run "plinth start" to begin a technical file.',
      );
    if (!statSync(path).isDirectory())
      throw new Refusal(`"${asked}" is not a folder`, 'Name the folder that holds plinth.yaml.');
    return { path, shown: asked.replace(/[/\\]+$/, '') };
  }
  if (existsSync(join(terminal.folder, projectFile))) return { path: terminal.folder, shown: '.' };
  const path = join(terminal.folder, 'content');
  if (existsSync(path)) return { path, shown: 'content' };
  throw new Refusal(
    'there is no technical file here: neither plinth.yaml nor a folder "content"',
    'Run "plinth start" to begin one, or name its folder.',
  );
};

/** Where the history of a technical file is looked for, and by which signers its approvals are judged. */
export const historyOptions = (
  folder: { readonly path: string },
  request: Request,
  terminal: Terminal,
): HistoryOptions => {
  const signers = request.options['signers'];
  return {
    folder: folder.path,
    ...(signers === undefined ? {} : { signers: resolve(terminal.folder, signers) }),
  };
};

/** Reads the folder and gathers what the pipeline needs from the outside. */
export const readInputs = (
  folder: { readonly path: string; readonly shown: string },
  request: Request,
  terminal: Terminal,
): Inputs => {
  terminal.progress(`Reading ${folder.shown} …`);
  let content: ReturnType<typeof readFolder>;
  try {
    content = readFolder(folder.path);
  } catch (error) {
    throw new Refusal(
      `the folder "${folder.shown}" cannot be read: ${systemMessage(error)}`,
      'Check its permissions.',
    );
  }
  terminal.progress(`Checking ${content.files.length} files …`);
  const asOf = request.options['as-of'];
  return {
    ...content,
    schemas: readOwnSchemas(),
    today: today(),
    toolVersion: readOwnVersion(),
    ...(asOf === undefined ? {} : { asOf }),
  };
};

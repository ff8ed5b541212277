import { readFileSync, statSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { systemMessage } from '../host/read-folder.ts';
import { readCustomProperties } from '../returned/custom-properties.ts';
import { openWordPackage, type PackageLimits, type WordPackage } from '../returned/word-package.ts';
import { XmlFault } from '../returned/xml-events.ts';
import type { Terminal } from './command.ts';
import { Refusal } from './refusal.ts';

/** A Word file that came back from somebody. */
export interface ReturnedFile {
  /** Name without folders, for reports that must not depend on the machine. */
  readonly name: string;
  readonly package: WordPackage;
  readonly properties: ReadonlyMap<string, string>;
}

const largestFile = 200_000_000;

/** Opens a returned Word file; refuses what is none with the reason and a way out. */
export const openReturnedFile = (shown: string, terminal: Terminal, limits?: PackageLimits): ReturnedFile => {
  const path = resolve(terminal.folder, shown);
  let bytes: Uint8Array;
  try {
    if (statSync(path).size > largestFile)
      throw new Refusal(
        `"${shown}" is larger than ${largestFile / 1_000_000} MB`,
        'Give the Word file alone.',
      );
    bytes = new Uint8Array(readFileSync(path));
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(`"${shown}" cannot be read: ${systemMessage(error)}`, 'Correct the name of the file.');
  }
  const opened = openWordPackage(bytes, limits);
  if (!opened.ok) throw new Refusal(`"${shown}" is no Word file: ${opened.reason}`, opened.hint);
  return refusingFaults(shown, () => ({
    name: basename(path),
    package: opened.package,
    properties: readCustomProperties(opened.package),
  }));
};

/** Runs a step that reads XML; what is no XML becomes a refusal. */
export const refusingFaults = <Result>(shown: string, step: () => Result): Result => {
  try {
    return step();
  } catch (error) {
    if (!(error instanceof XmlFault)) throw error;
    throw new Refusal(
      `"${shown}" cannot be read: ${error.message.split('\n')[0]}`,
      'Open the file in a word processor and save it again as .docx.',
    );
  }
};

import { join, resolve } from 'node:path';
import type { Document } from '../document/model.ts';
import { writeWhole } from '../host/write-files.ts';
import type { Request, Terminal } from './command.ts';
import { type HouseStyles, withHouseOrigin } from './house-styles.ts';
import { refuseInside } from './output-place.ts';
import { Refusal } from './refusal.ts';

/**
 * Prints a document to the terminal, or writes it to a file, in the form that was asked for.
 *
 * @param houses where the document belongs to a technical file: a Word file is written in the file's own house style
 */
export const deliverDocument = async (
  document: Document,
  request: Request,
  terminal: Terminal,
  houses?: () => HouseStyles,
): Promise<void> => {
  const format = request.options['format'] ?? 'text';
  if (format === 'docx') {
    const { writeWord } = await import('./write-word.ts');
    const styles = houses?.();
    const house = styles?.of(undefined);
    const bytes = await writeWord(house ? withHouseOrigin(document, house) : document, house?.style);
    deliver(bytes, `${document.id}.docx`, request, terminal);
    for (const { message } of styles?.findings() ?? []) terminal.out(`${message}\n`);
  } else if (format === 'html') {
    const { writeHtml } = await import('../writers/html/write-html.ts');
    deliver(writeHtml(document), `${document.id}.html`, request, terminal);
  } else {
    const { writeText } = await import('../writers/text/write-text.ts');
    const toFile = request.options['output'] !== undefined;
    deliver(
      writeText(document, { width: terminal.width, colour: terminal.colour && !toFile }),
      undefined,
      request,
      terminal,
    );
  }
};

/** Prints data for machines, or writes them to a file. */
export const deliverJson = (value: unknown, request: Request, terminal: Terminal): void =>
  deliver(`${JSON.stringify(value, null, 2)}\n`, undefined, request, terminal);

const deliver = (
  content: string | Uint8Array,
  usualName: string | undefined,
  request: Request,
  terminal: Terminal,
): void => {
  terminal.progress('');
  const asked = request.options['output'] ?? (usualName === undefined ? undefined : join('build', usualName));
  if (asked === undefined) {
    terminal.out(typeof content === 'string' ? content : new TextDecoder().decode(content));
    return;
  }
  const path = resolve(terminal.folder, asked);
  if (/[/\\]$/.test(asked))
    throw new Refusal(`--output names a folder: "${asked}"`, 'Name the file that is to be written.');
  refuseInside({ path, shown: asked, option: 'output' }, undefined);
  writeWhole(path, content);
  terminal.out(`Written: ${asked}\n`);
};

import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Document } from '../../document/model.ts';
import type { Level } from '../../findings/finding.ts';
import { sha256Hex } from '../../graph/digest.ts';
import { readOwnProgram } from '../../host/own-files.ts';
import { writeWhole } from '../../host/write-files.ts';
import type { Deliverable } from '../../pages/deliverables.ts';
import { deliverableName } from '../../submission/deliverable-name.ts';
import type { CompiledDocument } from '../../views/compile-document.ts';
import { linkDocuments } from '../../views/record-places.ts';
import { analyseWithHistory, historiesOf } from '../analyse-with-history.ts';
import {
  builtFilesName,
  builtFilesText,
  inputsDigest,
  readBuiltFiles,
  unchangedBytes,
} from '../built-files.ts';
import type { CommandRun, Request } from '../command.ts';
import { documentsOf, foundInDocuments, originOf } from '../documents.ts';
import { houseJson, houseText } from '../house-report.ts';
import { createHouseStyles, type NamedHouseStyle, withHouseOrigin } from '../house-styles.ts';
import { refuseOutputFolder } from '../output-place.ts';
import { createPrinter, type PrintWord } from '../print-word.ts';
import { Refusal } from '../refusal.ts';
import { isFailing, printReport, reportContent } from '../report.ts';
import { findFolder, historyOptions, readInputs } from '../technical-file.ts';
import { createWordWriters, type WordWriters } from '../word-writers.ts';

const fileName = ({ record, each }: CompiledDocument): string => deliverableName(record, each);

const asBytes = (content: string | Uint8Array): Uint8Array =>
  typeof content === 'string' ? new TextEncoder().encode(content) : content;

type Format = NonNullable<CompiledDocument['record']['fields']['formats']>[number] | 'pdf';

/** A file that a document becomes. */
interface Planned {
  readonly name: string;
  readonly inputs: string;
  readonly content: () => Promise<string | Uint8Array>;
}

/** What the writing of a document may need. */
interface Tools {
  readonly house: NamedHouseStyle | undefined;
  readonly words: WordWriters;
  /** Undefined where no PDF is asked for. */
  readonly print: PrintWord | undefined;
  /** The bytes of a file that is left as it is. */
  readonly kept: (planned: Pick<Planned, 'name' | 'inputs'>) => Uint8Array | undefined;
  readonly inputs: (document: Document, format: Format, house?: NamedHouseStyle) => string;
}

/** What is asked for early, so that it is under way, and again when its turn comes. */
const once = <Made>(make: () => Promise<Made>): (() => Promise<Made>) => {
  let made: Promise<Made> | undefined;
  return () => {
    made ??= make();
    return made;
  };
};

const plan: Record<
  Exclude<Format, 'pdf'>,
  (compiled: CompiledDocument, tools: Tools) => Promise<readonly Planned[]>
> = {
  docx: async (compiled, { house, words, print, kept, inputs }) => {
    const { record, document } = compiled;
    const name = `${fileName(compiled)}.docx`;
    const before = { name, inputs: inputs(document, 'docx', house) };
    const content = once(() =>
      words.write(house ? withHouseOrigin(document, house) : document, house?.style),
    );
    // The pages of all documents are laid out side by side, while the first ones are being written.
    if (!kept(before)) content().catch(() => undefined);
    const word = { ...before, content };
    if (!print) return [word];
    const pdf = {
      name: `${fileName(compiled)}.pdf`,
      inputs: inputs(document, 'pdf', house),
      content: once(async () => print(kept(before) ?? (await content()), record.id, document.date)),
    };
    if (!kept(pdf)) pdf.content().catch(() => undefined);
    return [word, pdf];
  },
  html: async (compiled, { inputs }) => [
    {
      name: `${fileName(compiled)}.html`,
      inputs: inputs(compiled.document, 'html'),
      content: async () => {
        const { writeHtml } = await import('../../writers/html/write-html.ts');
        return writeHtml(compiled.document);
      },
    },
  ],
  csv: async ({ document }, { inputs }) => {
    const [{ writeCsv }, { namedTablesOf }] = await Promise.all([
      import('../../writers/csv/write-csv.ts'),
      import('../../document/tables.ts'),
    ]);
    return namedTablesOf(document.blocks).map(({ name, table }) => ({
      name: `${document.id}-${name}.csv`,
      inputs: inputs(document, 'csv'),
      content: async () => writeCsv(table),
    }));
  },
};

/** Where the browsable copy goes; undefined where none is asked for: it is a copy of the whole file. */
const siteFolder = (request: Request, output: string): string | undefined =>
  request.switches.has('no-site') || request.options['only'] !== undefined
    ? undefined
    : (request.options['site'] ?? `${output.replace(/[/\\]+$/, '')}/site`).replace(/[/\\]+$/, '');

export const run: CommandRun = async (request, terminal) => {
  const print = request.switches.has('pdf') ? createPrinter() : undefined;
  const folder = findFolder(request.argument, terminal);
  const shownOutput = request.options['output'] ?? 'build';
  const output = resolve(terminal.folder, shownOutput);
  refuseOutputFolder({ path: output, shown: shownOutput, option: 'output' }, folder.path);
  const site = siteFolder(request, shownOutput);
  if (site !== undefined)
    refuseOutputFolder(
      {
        path: resolve(terminal.folder, site),
        shown: site,
        option: request.options['site'] === undefined ? 'output' : 'site',
        isReplaced: true,
      },
      folder.path,
    );
  const named = request.options['only']?.split(',').map((id) => id.trim());
  const inputs = readInputs(folder, request, terminal);
  const earlier = readBuiltFiles(output);
  // There are no more documents than files: threads that turn out too many cost less than waiting for them later.
  const words = createWordWriters(named?.length ?? inputs.files.length, {
    isAnew: request.switches.has('anew') || earlier.size === 0,
  });
  const analysis = analyseWithHistory(inputs, historyOptions(folder, request, terminal));
  const unknown = named?.find((id) => !analysis.graph.recordOf('document', id));
  if (unknown !== undefined) {
    const known = analysis.graph.recordsOf('document').map((record) => record.id);
    throw new Refusal(
      `there is no document ${unknown}`,
      known.length > 0 ? `Use some of: ${known.join(', ')}.` : 'Add one with "plinth new document".',
    );
  }
  const only = named && new Set(named);
  terminal.progress('Compiling documents …');
  const origin = originOf(folder.path);
  // A document that is written alone is linked with the others all the same: its bytes don't depend on what else is.
  const documents = linkDocuments(await documentsOf(analysis, undefined, origin)).filter(
    ({ record }) => only === undefined || only.has(record.id),
  );
  const pathOf = (name: string): string => `${shownOutput.replace(/[/\\]+$/, '')}/${name}`;
  const written: string[] = [];
  const left: string[] = [];
  const deliverables = new Map<CompiledDocument, Deliverable[]>();
  const houses = createHouseStyles(folder.path, analysis);
  const program = readOwnProgram();
  const tool = program ? sha256Hex(program) : undefined;
  const before = tool === undefined || request.switches.has('anew') ? new Map() : earlier;
  const kept = ({ name, inputs }: Pick<Planned, 'name' | 'inputs'>): Uint8Array | undefined =>
    before.get(name)?.inputs === inputs ? unchangedBytes(output, before.get(name)) : undefined;
  const built = new Map(only === undefined ? [] : earlier);
  try {
    const files: { readonly compiled: CompiledDocument; readonly group: readonly Planned[] }[] = [];
    for (const compiled of documents)
      for (const format of compiled.record.fields.formats ?? ['docx'])
        files.push({
          compiled,
          group: await plan[format](compiled, {
            house: format === 'docx' ? houses.of(compiled.record) : undefined,
            words,
            print,
            kept,
            inputs: (document, format, house) =>
              inputsDigest(document, { format, house: house?.sha256, tool: tool ?? '' }),
          }),
        });
    for (const [index, { compiled, group }] of files.entries()) {
      const ready: {
        readonly planned: Planned;
        readonly bytes: string | Uint8Array;
        readonly same: boolean;
      }[] = [];
      for (const planned of group) {
        const same = kept(planned);
        if (!same) terminal.progress(`Writing ${planned.name} (${index + 1} of ${files.length}) …`);
        ready.push({ planned, bytes: same ?? (await planned.content()), same: same !== undefined });
      }
      // A Word file and its PDF are there both, or neither.
      for (const { planned, bytes, same } of ready) {
        const { name, inputs } = planned;
        if (!same) writeWhole(join(output, name), bytes);
        const own = deliverables.get(compiled) ?? [];
        deliverables.set(compiled, own);
        // Read again when the copy is written, so that not all of them are held at once.
        own.push({
          name,
          size: asBytes(bytes).length,
          bytes: () => readFileSync(join(output, name)),
        });
        built.set(name, { file: name, inputs, sha256: sha256Hex(asBytes(bytes)) });
        (same ? left : written).push(pathOf(name));
      }
    }
    if (files.length > 0) writeWhole(join(output, builtFilesName), builtFilesText(built.values()));
  } finally {
    await words.close();
  }
  if (site !== undefined) {
    terminal.progress('Writing the browsable copy …');
    const [{ siteOf }, { mirrorFolder }, { impactSince }] = await Promise.all([
      import('../site-of.ts'),
      import('../../host/mirror-folder.ts'),
      import('../impact-since.ts'),
    ]);
    const { files } = await siteOf({
      analysis,
      histories: historiesOf(folder.path, analysis),
      documents,
      deliverables,
      origin,
      impact: await impactSince(folder, request, terminal),
    });
    const changed = mirrorFolder(resolve(terminal.folder, site), files);
    (changed ? written : left).push(`${site}/index.html`);
  }
  const outdated = [...earlier]
    .filter(([name, file]) => !built.has(name) && unchangedBytes(output, file) !== undefined)
    .map(([name]) => pathOf(name));
  const content = reportContent(
    analysis,
    [...(await foundInDocuments(analysis, documents, only)), ...houses.findings()],
    { isPartial: only !== undefined },
  );
  const format = request.options['format'] ?? 'text';
  const failOn = (request.options['fail-on'] ?? 'error') as Level;
  const houseStyles = houseJson(houses);
  await printReport(
    content,
    analysis,
    {
      folder,
      format,
      failOn,
      more: { written, left, outdated, ...(houseStyles.length > 0 ? { houseStyles } : {}) },
    },
    terminal,
  );
  if (format === 'text') {
    terminal.out(
      written.length > 0
        ? `\nWritten:\n${written.map((path) => `  ${path}\n`).join('')}`
        : '\nNothing was written.\n',
    );
    if (left.length > 0)
      terminal.out(
        `\nLeft as they are, for nothing in them has changed: ${left.length} ${left.length === 1 ? 'file' : 'files'}. To write them with the origin of today, use --anew.\n`,
      );
    if (outdated.length > 0)
      terminal.out(
        `\nFrom earlier builds, of no document any more:\n${outdated.map((path) => `  ${path}\n`).join('')}`,
      );
    const waiting = analysis.graph
      .recordsOf('document')
      .filter(
        (record) =>
          record.fields.for_each !== undefined &&
          record.status !== 'retired' &&
          (only === undefined || only.has(record.id)) &&
          !documents.some((each) => each.record === record),
      );
    if (waiting.length > 0)
      terminal.out(
        `\nNot written, for there is no record yet to write them for:\n${waiting.map((record) => `  ${record.id} (${record.fields.for_each?.type})\n`).join('')}`,
      );
    if (documents.length === 0)
      terminal.out('\nThere are no documents to write: add one with "plinth new document".\n');
    terminal.out(houseText(houses, terminal.width));
  }
  return isFailing(content, failOn) ? 1 : 0;
};

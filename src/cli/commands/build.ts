import { join, resolve } from 'node:path';
import type { Level } from '../../findings/finding.ts';
import { writeWhole } from '../../host/write-files.ts';
import type { CompiledDocument } from '../../views/compile-document.ts';
import { analyseWithHistory } from '../analyse-with-history.ts';
import type { CommandRun } from '../command.ts';
import { documentsOf, originOf } from '../documents.ts';
import { houseJson, houseText } from '../house-report.ts';
import { createHouseStyles, type HouseStyles, withHouseOrigin } from '../house-styles.ts';
import { createPrinter, type PrintWord } from '../print-word.ts';
import { Refusal } from '../refusal.ts';
import { isFailing, printReport, reportContent } from '../report.ts';
import { findFolder, historyOptions, readInputs } from '../technical-file.ts';

/** `DOC-01-design-trace-matrix` */
const fileName = ({ record, each }: CompiledDocument): string =>
  `${record.id}${each ? `-${each.id}` : ''}-${(each ?? record).title
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)}`;

type Format = NonNullable<CompiledDocument['record']['fields']['formats']>[number];

interface Written {
  readonly suffix: string;
  readonly content: string | Uint8Array;
}

/** What the writing of a document may need. */
interface Tools {
  readonly houses: HouseStyles;
  /** Undefined where no PDF is asked for. */
  readonly print: PrintWord | undefined;
}

const write: Record<Format, (compiled: CompiledDocument, tools: Tools) => Promise<readonly Written[]>> = {
  docx: async ({ record, document }, { houses, print }) => {
    const { writeWord } = await import('../write-word.ts');
    const house = houses.of(record);
    const content = house
      ? await writeWord(withHouseOrigin(document, house), house.style)
      : await writeWord(document);
    const word = { suffix: '.docx', content };
    if (!print) return [word];
    return [word, { suffix: '.pdf', content: await print(content, record.id, document.date) }];
  },
  html: async ({ document }) => {
    const { writeHtml } = await import('../../writers/html/write-html.ts');
    return [{ suffix: '.html', content: writeHtml(document) }];
  },
  csv: async ({ document }) => {
    const [{ writeCsv }, { tablesOf }] = await Promise.all([
      import('../../writers/csv/write-csv.ts'),
      import('../../document/tables.ts'),
    ]);
    // Tables without a caption are asides; a file of its own is for those that the text names.
    const tables = tablesOf(document.blocks).filter((table) => table.caption !== undefined);
    return tables.map((table, index) => ({
      suffix: `-${table.anchor ?? `table-${index + 1}`}.csv`,
      content: writeCsv(table),
    }));
  },
};

export const run: CommandRun = async (request, terminal) => {
  const print = request.switches.has('pdf') ? createPrinter() : undefined;
  const folder = findFolder(request.argument, terminal);
  const analysis = analyseWithHistory(
    readInputs(folder, request, terminal),
    historyOptions(folder, request, terminal),
  );
  const only = request.options['only'];
  if (only !== undefined && !analysis.graph.recordOf('document', only)) {
    const known = analysis.graph.recordsOf('document').map((record) => record.id);
    throw new Refusal(
      `there is no document ${only}`,
      known.length > 0 ? `Use one of: ${known.join(', ')}.` : 'Add one with "plinth new document".',
    );
  }
  terminal.progress('Compiling documents …');
  const documents = await documentsOf(analysis, only, originOf(folder.path));
  const shownOutput = request.options['output'] ?? 'build';
  const output = resolve(terminal.folder, shownOutput);
  const written: string[] = [];
  const houses = createHouseStyles(folder.path, analysis);
  for (const compiled of documents) {
    for (const format of compiled.record.fields.formats ?? ['docx']) {
      terminal.progress(
        `Writing ${compiled.document.id} (${format === 'docx' && print ? 'docx, pdf' : format}) …`,
      );
      for (const { suffix, content } of await write[format](compiled, { houses, print })) {
        const name = `${suffix.startsWith('-') ? compiled.document.id : fileName(compiled)}${suffix}`;
        writeWhole(join(output, name), content);
        written.push(`${shownOutput.replace(/[/\\]+$/, '')}/${name}`);
      }
    }
  }
  const content = reportContent(
    analysis,
    [...documents.flatMap((compiled) => compiled.findings), ...houses.findings()],
    { isPartial: only !== undefined },
  );
  const format = request.options['format'] ?? 'text';
  const failOn = (request.options['fail-on'] ?? 'error') as Level;
  const houseStyles = houseJson(houses);
  await printReport(
    content,
    analysis,
    { folder, format, failOn, more: { written, ...(houseStyles.length > 0 ? { houseStyles } : {}) } },
    terminal,
  );
  if (format === 'text') {
    terminal.out(
      written.length > 0
        ? `\nWritten:\n${written.map((path) => `  ${path}\n`).join('')}`
        : '\nThere are no documents to write: add one with "plinth new document".\n',
    );
    terminal.out(houseText(houses, terminal.width));
  }
  return isFailing(content, failOn) ? 1 : 0;
};

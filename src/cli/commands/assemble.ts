import { existsSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { createMarkdownCompiler } from '../../document/markdown.ts';
import type { FileLink, Table } from '../../document/model.ts';
import { relink } from '../../document/relink.ts';
import type { Level } from '../../findings/finding.ts';
import { countByLevel } from '../../findings/order.ts';
import { sha256Hex } from '../../graph/digest.ts';
import { writeFolder } from '../../host/write-files.ts';
import type { Analysis } from '../../pipeline.ts';
import { nearestName } from '../../records/nearest-name.ts';
import type { RecordOf } from '../../records/record.ts';
import { deliverableName } from '../../submission/deliverable-name.ts';
import { type DocumentCopy, type PlannedFile, planFolder } from '../../submission/folder-plan.ts';
import {
  fileFacts,
  type ManifestFile,
  manifestForm,
  manifestName,
  manifestOf,
} from '../../submission/manifest.ts';
import { submissionTables } from '../../submission/submission-rows.ts';
import { type CompiledDocument, contentDigest, recordIdPatternOf } from '../../views/compile-document.ts';
import { linkDocuments, recordPlaces } from '../../views/record-places.ts';
import { submissionDocument } from '../../views/submission-document.ts';
import { copiesOfDocument } from '../../views/submission-index.ts';
import { countRows, countWords, type SubmissionTableContext } from '../../views/submission-tables.ts';
import { writeCsv } from '../../writers/csv/write-csv.ts';
import { analyseWithHistory } from '../analyse-with-history.ts';
import type { CommandRun } from '../command.ts';
import { documentsOf, foundInDocuments, originOf } from '../documents.ts';
import { createHouseStyles, withHouseOrigin } from '../house-styles.ts';
import { refuseOutputFolder } from '../output-place.ts';
import { createPrinter } from '../print-word.ts';
import { Refusal } from '../refusal.ts';
import { isFailing, printReport, reportContent } from '../report.ts';
import { findFolder, historyOptions, readInputs } from '../technical-file.ts';
import { createWordWriters } from '../word-writers.ts';

type Format = NonNullable<RecordOf<'submission'>['fields']['formats']>[number];

const submissionNamed = (id: string | undefined, { graph }: Analysis): RecordOf<'submission'> => {
  const all = graph.recordsOf('submission').filter((each) => each.status !== 'retired');
  const known = all.map((each) => each.id);
  const [only] = all;
  if (id === undefined && all.length === 1 && only) return only;
  if (id === undefined)
    throw new Refusal(
      all.length === 0 ? 'there is no submission' : `there are ${all.length} submissions`,
      all.length === 0 ? 'Add one with "plinth new submission".' : `Name one of: ${known.join(', ')}.`,
    );
  const found = all.find((each) => each.id === id);
  if (found) return found;
  const near = nearestName(id, known);
  throw new Refusal(
    `there is no submission ${id}`,
    near
      ? `Did you mean ${near}?`
      : known.length > 0
        ? `Use one of: ${known.join(', ')}.`
        : 'Add one with "plinth new submission".',
  );
};

/** A folder that an earlier run wrote may be replaced; anything else stays. */
const refuseOthers = (path: string, shown: string): void => {
  if (!existsSync(path)) return;
  let isOurs = false;
  if (statSync(path).isDirectory())
    try {
      const manifest = JSON.parse(readFileSync(join(path, manifestName), 'utf8')) as { form?: unknown };
      isOurs = manifest.form === manifestForm;
    } catch {
      isOurs = false;
    }
  if (!isOurs)
    throw new Refusal(
      `"${shown}" is there already, and is no submission folder of plinth`,
      'Name another place with --output, or move it away.',
    );
};

/** Whether the folder is still the one that was handed in, where that is known. */
const handedInWords = (
  { id, fields: { handed_in: day, manifest_sha256: digest } }: RecordOf<'submission'>,
  now: string,
): readonly string[] => {
  if (day === undefined) return [];
  if (digest === undefined)
    return [
      `${id} was handed in on ${day}; add "manifest_sha256" with the digest of that folder's manifest, so that it can be told from others.`,
    ];
  return [
    digest === now
      ? `This is the folder that was handed in on ${day}.`
      : `The folder that was handed in on ${day} had a manifest with the digest ${digest}; this one is another.`,
  ];
};

const asBytes = (content: string | Uint8Array): Uint8Array =>
  typeof content === 'string' ? new TextEncoder().encode(content) : content;

const copyKey = ({ document, each }: DocumentCopy): string => `${document.id}/${each?.id ?? ''}`;

const copyKeyOf = ({ record, each }: CompiledDocument): string =>
  copyKey({ document: record, ...(each ? { each } : {}) });

const withoutEnding = (path: string): string => path.replace(/\.[a-z]+$/, '');

const manifestTable = (files: readonly ManifestFile[]): Table => ({
  kind: 'table',
  columns: ['Path', 'Bytes', 'SHA-256', 'Document', 'Number', 'Revision', 'Status', 'For', 'Source'].map(
    (title) => ({ title, width: 1 }),
  ),
  rows: files.map((file) => ({
    cells: [
      file.path,
      String(file.bytes),
      file.sha256,
      file.document ?? '',
      file.number ?? '',
      file.revision ?? '',
      file.status ?? '',
      file.each ?? '',
      file.source ?? '',
    ].map((value) => ({ children: [{ kind: 'text' as const, value }] })),
  })),
});

export const run: CommandRun = async (request, terminal) => {
  const folder = findFolder(request.options['in'], terminal);
  const shownOutput = request.options['output'] ?? 'build';
  refuseOutputFolder(
    { path: resolve(terminal.folder, shownOutput), shown: shownOutput, option: 'output' },
    folder.path,
  );
  const analysis = analyseWithHistory(
    readInputs(folder, request, terminal),
    historyOptions(folder, request, terminal),
  );
  const submission = submissionNamed(request.argument, analysis);
  const formats: readonly Format[] = submission.fields.formats ?? ['docx'];
  const print = formats.includes('pdf') ? createPrinter() : undefined;
  const tables = submissionTables(submission, analysis.clauseTables);
  const plan = planFolder(submission, tables, {
    graph: analysis.graph,
    files: analysis.files,
    copiesOf: (document) => copiesOfDocument(document, analysis.graph),
  });
  const shown = `${shownOutput.replace(/[/\\]+$/, '')}/${plan.name}`;
  const output = resolve(terminal.folder, shownOutput, plan.name);
  refuseOthers(output, shown);
  refuseOutputFolder({ path: output, shown, option: 'output', isReplaced: true }, folder.path);
  terminal.progress('Compiling documents …');
  const origin = originOf(folder.path);
  const documents = await documentsOf(analysis, undefined, origin);
  const wanted = new Set(
    plan.files.flatMap((file) => (file.kind === 'document' ? [copyKey(file.copy)] : [])),
  );
  const handedIn = documents.filter((each) => wanted.has(copyKeyOf(each)));
  const compiled = new Map(linkDocuments(handedIn).map((each) => [copyKeyOf(each), each]));
  const houses = createHouseStyles(folder.path, analysis);
  const words = createWordWriters(plan.files.length, { isAnew: false });

  /** Form that a link leads to: Word where there is one. */
  const linkForm = formats.includes('docx') ? 'docx' : (formats[0] ?? 'docx');
  const pathsOf = (file: PlannedFile): readonly string[] =>
    file.kind === 'file' ? [file.path] : formats.map((format) => `${file.path}.${format}`);
  const placeOfCopy = new Map(
    plan.files.flatMap((file) =>
      file.kind === 'document' && compiled.has(copyKey(file.copy))
        ? [[copyKey(file.copy), file.path] as const]
        : [],
    ),
  );
  const placeOfFile = new Map(
    plan.files.flatMap((file) => (file.kind === 'file' ? [[file.source, file.path] as const] : [])),
  );
  const linksTo = (path: string): Pick<FileLink, 'path' | 'inHtml'> => ({
    path: `${path}.${linkForm}`,
    ...(formats.includes('html') ? { inHtml: `${path}.html` } : {}),
  });
  // In a build all documents lie in one folder, under these names; here each has a place of its own.
  const byName = new Map(
    plan.files.flatMap((file) =>
      file.kind === 'document' && compiled.has(copyKey(file.copy))
        ? [[deliverableName(file.copy.document, file.copy.each), file] as const]
        : [],
    ),
  );
  const contents = new Map<string, Uint8Array>();
  const written: ManifestFile[] = [];
  const add = (path: string, content: string | Uint8Array, facts: ReturnType<typeof fileFacts>): void => {
    const bytes = asBytes(content);
    contents.set(path, bytes);
    written.push({ path, bytes: bytes.length, sha256: sha256Hex(bytes), ...facts });
  };
  const { writeHtml } = await import('../../writers/html/write-html.ts');
  try {
    const copies = plan.files.flatMap((file) => {
      const found = file.kind === 'document' ? compiled.get(copyKey(file.copy)) : undefined;
      if (!found) return [];
      const document = relink(found.document, ({ path }) => {
        const there = byName.get(withoutEnding(path))?.path;
        return there === undefined
          ? undefined
          : (Object.fromEntries(Object.entries(linksTo(there)).map(([key, to]) => [key, `../${to}`])) as Pick<
              FileLink,
              'path' | 'inHtml'
            >);
      });
      const house = houses.of(found.record);
      const bytes =
        formats.includes('docx') || print
          ? words.write(house ? withHouseOrigin(document, house) : document, house?.style)
          : undefined;
      // All are laid out side by side; what fails is told when its turn comes.
      bytes?.catch(() => undefined);
      const printed = print && bytes?.then((docx) => print(docx, found.record.id, document.date));
      printed?.catch(() => undefined);
      return [{ file, document, bytes, printed }];
    });
    for (const [index, { file, document, bytes, printed }] of copies.entries()) {
      terminal.progress(`Writing ${document.id} (${index + 1} of ${copies.length}) …`);
      for (const format of formats)
        if (format === 'html') add(`${file.path}.html`, writeHtml(document), fileFacts(file));
        else if (bytes && format === 'docx') add(`${file.path}.docx`, await bytes, fileFacts(file));
        else if (printed) add(`${file.path}.pdf`, await printed, fileFacts(file));
    }
    for (const file of plan.files)
      if (file.kind === 'file')
        add(file.path, analysis.files.get(file.source)?.bytes ?? new Uint8Array(), fileFacts(file));
    const places = recordPlaces(handedIn);
    const drawn: SubmissionTableContext = {
      graph: analysis.graph,
      lapsedBy: (id) => analysis.approvals.of(id)?.changed ?? [],
      copiesIn: (content) =>
        plan.filesOf(content).flatMap((file) => (file.kind === 'document' ? [file.copy] : [])),
      sourcesIn: (content) =>
        plan.filesOf(content).flatMap((file) => (file.kind === 'file' ? [file.source] : [])),
      links: {
        document: (copy) => {
          const path = placeOfCopy.get(copyKey(copy));
          return path === undefined ? undefined : linksTo(path);
        },
        file: (source) => placeOfFile.get(source),
        shows: (id) => byName.get(withoutEnding(places.get(id)?.file.path ?? ''))?.copy,
      },
    };
    const compileText = await createMarkdownCompiler();
    const index = submissionDocument({
      ...analysis,
      waived: analysis.waivers.waived,
      ...(origin ? { origin } : {}),
      submission,
      tables,
      drawn,
      written,
      errors: countByLevel(analysis.findings).error,
      body: compileText(submission.body, {
        file: submission.file,
        firstLine: submission.bodyLine,
        isRecordId: (id) => analysis.graph.record(id) !== undefined,
        recordIdPattern: recordIdPatternOf(analysis.graph),
        topHeadingLevel: 2,
        expandView: () => [],
        inlineValue: () => undefined,
        condition: () => undefined,
      }).blocks,
    });
    const files = [...written];
    const house = houses.of(undefined);
    add('index.docx', await words.write(house ? withHouseOrigin(index, house) : index, house?.style), {});
    add('index.html', writeHtml(index), {});
    const manifest = manifestOf({
      submission,
      tables,
      plan,
      files: written.toSorted((a, b) => (a.path < b.path ? -1 : 1)),
      pathsOf: (file) => pathsOf(file).filter((path) => contents.has(path)),
      asOf: analysis.asOf,
      contentDigest: contentDigest(analysis),
      toolVersion: analysis.toolVersion,
    });
    const manifestBytes = asBytes(`${JSON.stringify(manifest, null, 2)}\n`);
    const manifestDigest = sha256Hex(manifestBytes);
    contents.set(manifestName, manifestBytes);
    contents.set('manifest.csv', asBytes(writeCsv(manifestTable(manifest.files))));
    terminal.progress('');
    writeFolder(output, contents);
    const content = reportContent(analysis, [
      ...(await foundInDocuments(analysis, documents)),
      ...houses.findings(),
    ]);
    const failOn = (request.options['fail-on'] ?? 'error') as Level;
    const format = request.options['format'] ?? 'text';
    if (format !== 'text')
      await printReport(
        content,
        analysis,
        { folder, format, failOn, more: { written: shown, manifest_sha256: manifestDigest } },
        terminal,
      );
    else {
      const about = content.findings.filter(({ records }) => records.includes(submission.id));
      terminal.out(
        [
          `Written: ${shown}`,
          `  ${files.length} files: ${copies.length} ${copies.length === 1 ? 'document' : 'documents'}, ${files.filter((file) => file.source !== undefined).length} of data; index.docx, index.html, manifest.json, manifest.csv`,
          `  Rows: ${countWords(countRows(tables)).join('')}`,
          `  manifest.json: SHA-256 ${manifestDigest}`,
          ...handedInWords(submission, manifestDigest).map((words) => `  ${words}`),
          ...about.map(({ level, message }) => `  ${level}: ${message}`),
          isFailing(content, failOn)
            ? `Findings of level ${failOn} stand in the technical file: run "plinth check". The folder must not be handed in before they are resolved or waived.`
            : `No finding of level ${failOn} stands in the technical file. Whether the folder is complete is for people to decide.`,
          '',
        ].join('\n'),
      );
    }
    return isFailing(content, failOn) ? 1 : 0;
  } finally {
    await words.close();
  }
};

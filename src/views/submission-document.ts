import type { Block, Document, Table } from '../document/model.ts';
import { shortCaution } from '../document/short-caution.ts';
import type { RecordOf } from '../records/record.ts';
import type { SubmissionTable } from '../submission/submission-rows.ts';
import { cell, notice, text } from './cells.ts';
import { contentDigest, type DocumentInputs, originEntries, signaturesOf } from './compile-document.ts';
import {
  answeredAboveWords,
  countRows,
  documentsTable,
  emptyRows,
  rowsTable,
  type SubmissionTableContext,
  submissionParticulars,
} from './submission-tables.ts';

/** A file of the folder as it was written. */
export interface WrittenFile {
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
}

export interface SubmissionDocumentInputs extends DocumentInputs {
  readonly submission: RecordOf<'submission'>;
  readonly tables: readonly SubmissionTable[];
  readonly drawn: SubmissionTableContext;
  /** Files of the folder but for the index and the manifest. */
  readonly written: readonly WrittenFile[];
  /** Errors that stand in the technical file. */
  readonly errors: number;
  /** The body of the record as blocks. */
  readonly body: readonly Block[];
}

const caution =
  'This index was compiled from records. It says what is handed in and what is not; it does not say that the device is safe, that the documentation is complete or that it complies with any law or standard. That is for qualified people and for the body to decide.';

const heading = (words: string, level: 1 | 2 = 1): Block => ({
  kind: 'heading',
  level,
  children: [text(words)],
});

const filesTable = (written: readonly WrittenFile[]): Table => ({
  kind: 'table',
  caption: 'Files of the folder',
  columns: [
    { title: 'File', width: 48 },
    { title: 'Bytes', width: 10, align: 'right' },
    { title: 'SHA-256', width: 42 },
  ],
  rows: written.map(({ path, bytes, sha256 }) => ({
    cells: [
      cell({ kind: 'file-link', path, children: [text(path)] }),
      cell(text(String(bytes))),
      cell(text(sha256, { code: true })),
    ],
  })),
  description: 'Every file of the folder with its size and its digest.',
});

/** The index document of a submission folder: what answers each row, what is missing and why, and every file. */
export const submissionDocument = (inputs: SubmissionDocumentInputs): Document => {
  const { submission, tables, drawn, written, errors, project, asOf, graph } = inputs;
  const { device } = project.fields;
  const missing = countRows(tables).missing;
  const captioned = (table: Table, caption: string): Table => ({ ...table, caption });
  const empty = tables.filter((each) => emptyRows(each).length > 0);
  const blocks: readonly Block[] = [
    ...(errors > 0
      ? [
          notice(
            `${errors} finding${errors === 1 ? '' : 's'} of level error stand${errors === 1 ? 's' : ''} in the technical file as of ${asOf}. The folder must not be handed in before they are resolved or waived.`,
            'bad',
          ),
        ]
      : []),
    ...(missing > 0
      ? [
          notice(
            `${missing} ${missing === 1 ? 'row has' : 'rows have'} neither content nor a reason and ${missing === 1 ? 'is' : 'are'} marked as missing.`,
            'bad',
          ),
        ]
      : []),
    heading('What this folder holds'),
    { kind: 'particulars', entries: submissionParticulars(submission, tables, drawn) },
    ...inputs.body,
    {
      kind: 'landscape',
      blocks: [
        heading('Index'),
        ...tables.flatMap((each): readonly Block[] => [
          heading(each.table.title, 2),
          captioned(rowsTable(each, undefined, drawn), `${each.table.title}, row by row`),
        ]),
        heading('What is missing, and why'),
        ...(empty.length === 0
          ? [notice('No row is left empty.')]
          : empty.map((each) =>
              captioned(
                rowsTable(each, emptyRows(each), drawn),
                `Rows of "${each.table.title}" without content`,
              ),
            )),
        ...tables.flatMap(({ table, rows }) => {
          const words = answeredAboveWords(rows);
          return words === undefined ? [] : [notice(`${table.title}. ${words}`)];
        }),
        heading('Documents'),
        captioned(documentsTable(tables, drawn), 'Documents that are handed in'),
        heading('Files'),
        filesTable(written),
      ],
    },
  ];
  return {
    id: `${submission.id}-index`,
    title: submission.title,
    subtitle: 'Index',
    number: submission.id,
    revision: (inputs.approvals.digests.get(submission.id) ?? '').slice(0, 12),
    status: submission.status,
    // The day of handing in is not known when the folder is written, and must not change it afterwards.
    date: asOf,
    organisation: device.maker,
    product: device.code ? `${device.name} ${device.code}` : device.name,
    language: project.fields.language ?? 'en-GB',
    signatures: signaturesOf(submission, inputs),
    blocks,
    footnotes: [],
    caution: shortCaution,
    provenance: [
      { name: 'Source', value: submission.file },
      { name: 'Stated as of', value: asOf },
      { name: 'Content digest', value: contentDigest(inputs) },
      ...originEntries(inputs),
      { name: 'Caution', value: caution },
    ],
    recordTitles: new Map([...graph.records.values()].map((each) => [each.id, each.title])),
  };
};

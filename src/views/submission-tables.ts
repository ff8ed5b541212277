import type { Inline, Row, Table } from '../document/model.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';
import { type ClauseRow, type ClauseTable, isFromMemory, rowsBelow } from '../regulation/clause-tables.ts';
import type { DocumentCopy } from '../submission/folder-plan.ts';
import type { RowContent, SubmissionRow, SubmissionTable } from '../submission/submission-rows.ts';
import { cell, nothing, onLines, orNothing, reference, text } from './cells.ts';

/** Where the files of a submission lie, as seen from the document that names them. */
export interface SubmissionLinks {
  /** Paths of a copy of a document: in Word, and where a page in HTML leads to. */
  readonly document: (copy: DocumentCopy) => { readonly path: string; readonly inHtml?: string } | undefined;
  /** Path of a file of the technical file. */
  readonly file: (source: string) => string | undefined;
  /** The copy that shows a record. */
  readonly shows: (id: string) => DocumentCopy | undefined;
}

/** What the tables are drawn from. */
export interface SubmissionTableContext {
  readonly graph: TraceGraph;
  /** Ids of what made the approvals of a record lapse; empty where they hold. */
  readonly lapsedBy: (id: string) => readonly string[];
  readonly links: SubmissionLinks;
  /** The copies that a content entry hands in. */
  readonly copiesIn: (content: RowContent) => readonly DocumentCopy[];
  /** Files of the technical file that a content entry hands in. */
  readonly sourcesIn: (content: RowContent) => readonly string[];
}

/** More lines than this in one cell say less than their number. */
const mostListed = 8;

const linked = (
  words: readonly Inline[],
  paths: { readonly path: string; readonly inHtml?: string } | undefined,
  recordId?: string,
): readonly Inline[] =>
  paths
    ? [
        {
          kind: 'file-link',
          path: paths.path,
          ...(paths.inHtml === undefined ? {} : { inHtml: paths.inHtml }),
          ...(recordId === undefined ? {} : { recordId }),
          children: words,
        },
      ]
    : words;

const documentWords = ({ document, each }: DocumentCopy): string =>
  each ? `${document.id}-${each.id} ${each.title}` : `${document.id} ${document.title}`;

const statusWords = (
  record: TechnicalRecord,
  { lapsedBy }: Pick<SubmissionTableContext, 'lapsedBy'>,
): Inline => {
  if (record.status !== 'approved') return text(record.status, { tone: 'bad', bold: true });
  return lapsedBy(record.id).length > 0
    ? text('approval lapsed', { tone: 'bad', bold: true })
    : text(record.status, { tone: 'quiet' });
};

const documentLine = (copy: DocumentCopy, context: SubmissionTableContext): readonly Inline[] => {
  const { document } = copy;
  return [
    ...linked([text(documentWords(copy))], context.links.document(copy)),
    text(`, ${numberOf(copy)} revision ${document.fields.revision}, `),
    statusWords(document, context),
  ];
};

/** A record: the link leads to where a document of the folder shows it. */
const recordLine = (id: string, context: SubmissionTableContext): readonly Inline[] => {
  const { graph, links } = context;
  const record = graph.record(id);
  if (!record) return [text(id), text(' (there is no such record)', { tone: 'bad' })];
  const shown = links.shows(id);
  const paths = shown && links.document(shown);
  return [
    ...(paths
      ? [...linked([text(id)], paths, id), text(` ${record.title}, `)]
      : [reference(id), text(` ${record.title}, `)]),
    statusWords(record, context),
    ...(shown ? [text(`, in ${documentWords(shown).split(' ')[0]}`, { tone: 'quiet' })] : []),
  ];
};

const fileLine = (source: string, { links }: SubmissionTableContext): readonly Inline[] => {
  const path = links.file(source);
  return linked([text(source)], path === undefined ? undefined : { path });
};

const shortened = (lines: readonly (readonly Inline[])[], what: string): readonly (readonly Inline[])[] =>
  lines.length > mostListed
    ? [...lines.slice(0, mostListed - 1), [text(`and ${lines.length - mostListed + 1} more ${what}`)]]
    : lines;

const contentLines = (
  content: RowContent,
  context: SubmissionTableContext,
): readonly (readonly Inline[])[] => [
  ...shortened(
    context.copiesIn(content).map((copy) => documentLine(copy, context)),
    'documents',
  ),
  ...(content.record === undefined ? [] : [recordLine(content.record, context)]),
  ...shortened(
    context.sourcesIn(content).map((source) => fileLine(source, context)),
    'files',
  ),
  ...(content.where === undefined ? [] : [[text(content.where, { tone: 'quiet' })]]),
];

const answerCell = (
  { state, entry, isOwn, below }: SubmissionRow,
  context: SubmissionTableContext,
): readonly Inline[] => {
  switch (state) {
    case 'missing':
      return [
        text('missing', { bold: true, tone: 'bad' }),
        ...(below ? [text(`; content is given for ${below.clause} only`, { tone: 'quiet' })] : []),
      ];
    case 'heading':
      return [nothing('see below')];
    case 'left empty':
      return isOwn
        ? [text('left empty: ', { bold: true }), text(entry?.written.empty ?? 'no reason is given')]
        : [nothing(`as for ${entry?.written.clause}`)];
    case 'answered':
      return isOwn
        ? orNothing(
            onLines((entry?.written.content ?? []).flatMap((content) => contentLines(content, context))),
            'nothing that could be handed in',
          )
        : [nothing(`as for ${entry?.written.clause}`)];
  }
  return state satisfies never;
};

const titleCell = (row: ClauseRow): readonly Inline[] => [
  text(row.title, row.parent === undefined ? { bold: true } : {}),
  ...(isFromMemory(row) ? [text(' (from memory)', { tone: 'quiet' })] : []),
];

/** The rows of one table, all or those below a clause. */
export const rowsTable = (
  { table, rows }: SubmissionTable,
  wanted: readonly SubmissionRow[] | undefined,
  context: SubmissionTableContext,
): Table => ({
  kind: 'table',
  columns: [
    { title: 'Row', width: 12 },
    { title: 'What it asks for', width: 32 },
    { title: 'What answers it', width: 56 },
  ],
  rows: (wanted ?? rows).map(
    (row): Row => ({
      cells: [cell(text(row.row.clause)), cell(...titleCell(row.row)), cell(...answerCell(row, context))],
    }),
  ),
  description: `${table.title}: what answers each row.`,
});

/** Rows of a table from a clause on downwards. */
export const rowsUnder = ({ table, rows }: SubmissionTable, clause: string): readonly SubmissionRow[] => {
  const wanted = new Set([clause, ...rowsBelow(table, clause).map((row) => row.clause)]);
  return rows.filter((row) => wanted.has(row.row.clause));
};

/** Rows that are left empty with a reason, or of which nothing is said; what holds for several stands once. */
export const emptyRows = ({ rows }: SubmissionTable): readonly SubmissionRow[] =>
  rows.filter(({ state, isOwn }) => state === 'missing' || (state === 'left empty' && isOwn));

/** Each document of a submission, with the rows that it answers. */
export const documentsTable = (
  tables: readonly SubmissionTable[],
  context: SubmissionTableContext,
): Table => {
  const found = new Map<string, { readonly copy: DocumentCopy; readonly rows: string[] }>();
  for (const { table, rows } of tables)
    for (const { row, entry, isOwn } of rows)
      if (isOwn)
        for (const copy of (entry?.written.content ?? []).flatMap(context.copiesIn)) {
          const key = `${copy.document.id}/${copy.each?.id ?? ''}`;
          const name = nameOfRow(row, table, tables.length);
          const known = found.get(key);
          if (!known) found.set(key, { copy, rows: [name] });
          else if (!known.rows.includes(name)) known.rows.push(name);
        }
  return {
    kind: 'table',
    columns: [
      { title: 'Document', width: 44 },
      { title: 'Number', width: 18 },
      { title: 'Revision', width: 10 },
      { title: 'Status', width: 12 },
      { title: 'Rows', width: 16 },
    ],
    rows: [...found.values()].map(({ copy, rows }) => ({
      cells: [
        cell(...linked([text(documentWords(copy))], context.links.document(copy))),
        cell(text(numberOf(copy))),
        cell(text(copy.document.fields.revision)),
        cell(statusWords(copy.document, context)),
        cell(text(rows.join(', '))),
      ],
    })),
    description: 'The documents that are handed in, and the rows that they answer.',
  };
};

const numberOf = ({ document, each }: DocumentCopy): string =>
  `${document.fields.number ?? document.id}${each ? `-${each.id}` : ''}`;

const nameOfRow = (row: ClauseRow, table: ClauseTable, tables: number): string =>
  tables > 1 && table.short !== '' ? `${table.short} ${row.clause}` : row.clause;

/** What a row counts as in a sum: content that is given for a row above says less than an entry of its own. */
type RowCount = SubmissionRow['state'] | 'answered above';

/** Whether content is given for a row above only: nobody has said that it answers this row. */
const isAnsweredAbove = ({ state, isOwn }: SubmissionRow): boolean => state === 'answered' && !isOwn;

export const countRows = (tables: readonly SubmissionTable[]): Readonly<Record<RowCount, number>> => {
  const count = { answered: 0, 'answered above': 0, 'left empty': 0, heading: 0, missing: 0 };
  for (const { rows } of tables)
    for (const row of rows) count[isAnsweredAbove(row) ? 'answered above' : row.state] += 1;
  return count;
};

/** The sum in words; what is missing stands apart, as the last part. */
export const countWords = (count: ReturnType<typeof countRows>): readonly [string, string] => [
  `${count.answered} answered by an entry of their own, ${count['answered above']} only by that of a row above, ${count['left empty']} left empty with a reason, `,
  `${count.missing} missing`,
];

/** Says which rows have no entry of their own, where content is given for a row above them. */
export const answeredAboveWords = (rows: readonly SubmissionRow[]): string | undefined => {
  const below = new Map<string, string[]>();
  for (const { row, entry } of rows.filter(isAnsweredAbove)) {
    const above = entry?.written.clause ?? '';
    below.set(above, [...(below.get(above) ?? []), row.clause]);
  }
  if (below.size === 0) return undefined;
  const groups = [...below].map(([above, clauses]) =>
    clauses.length === 1
      ? `Row ${clauses[0]} has no entry of its own; row ${above} above it has content.`
      : `Rows ${clauses.slice(0, -1).join(', ')} and ${clauses.at(-1)} have no entry of their own; row ${above} above them has content.`,
  );
  return `${groups.join(' ')} Whether that answers them is for a person to judge.`;
};

/** The submission in a few particulars. */
export const submissionParticulars = (
  submission: RecordOf<'submission'>,
  tables: readonly SubmissionTable[],
  context: Pick<SubmissionTableContext, 'lapsedBy'>,
): readonly { readonly name: string; readonly value: readonly Inline[] }[] => {
  const { body, purpose, reference: given, planned } = submission.fields;
  const count = countRows(tables);
  const [said, missing] = countWords(count);
  const optional = (name: string, value: string | undefined) =>
    value === undefined ? [] : [{ name, value: [text(value)] }];
  return [
    { name: 'Submission', value: [text(`${submission.id} ${submission.title}`)] },
    { name: 'Status', value: [statusWords(submission, context)] },
    { name: 'To', value: [text(body)] },
    ...optional('Purpose', purpose),
    ...optional('Reference', given),
    ...optional('Planned', planned),
    {
      name: 'Order',
      value: onLines(
        tables.map(({ table }) => [text(`${table.title}: ${table.source}, edition ${table.edition}`)]),
      ),
    },
    {
      name: 'Rows',
      value: [text(said), text(missing, count.missing > 0 ? { bold: true, tone: 'bad' } : {})],
    },
  ];
};

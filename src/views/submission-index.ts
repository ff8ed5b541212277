import type { Block } from '../document/model.ts';
import { nearestName } from '../records/nearest-name.ts';
import type { RecordOf } from '../records/record.ts';
import { deliverableName } from '../submission/deliverable-name.ts';
import { type DocumentCopy, planFolder } from '../submission/folder-plan.ts';
import { type RowContent, type SubmissionTable, submissionTables } from '../submission/submission-rows.ts';
import { notice } from './cells.ts';
import { recordsForEach } from './each-record.ts';
import {
  answeredAboveWords,
  documentsTable,
  emptyRows,
  rowsTable,
  rowsUnder,
  type SubmissionTableContext,
} from './submission-tables.ts';
import {
  type CommonOptions,
  captionOf,
  isShown,
  type View,
  type ViewContext,
  type ViewProblem,
} from './view.ts';

interface Options extends CommonOptions {
  readonly of?: string;
  readonly table?: string;
  readonly clause?: string;
  readonly part?: 'rows' | 'empty' | 'documents';
}

/** The copies in which a document is written. */
export const copiesOfDocument = (
  document: RecordOf<'document'>,
  graph: ViewContext['graph'],
): readonly DocumentCopy[] =>
  recordsForEach(document, graph)?.map((each) => ({ document, each })) ?? [{ document }];

/** Names of the files of a build, all in one folder: what the document at hand can lead to. */
const besideThis = ({ document, each }: DocumentCopy): { path: string; inHtml?: string } | undefined => {
  const formats = document.fields.formats ?? ['docx'];
  const name = deliverableName(document, each);
  const inHtml = formats.includes('html') ? { inHtml: `${name}.html` } : {};
  if (formats.includes('docx')) return { path: `${name}.docx`, ...inHtml };
  return formats.includes('html') ? { path: `${name}.html`, ...inHtml } : undefined;
};

const tableContext = (
  submission: RecordOf<'submission'>,
  tables: readonly SubmissionTable[],
  { graph, files, approvals }: ViewContext,
): SubmissionTableContext => {
  const plan = planFolder(submission, tables, {
    graph,
    files,
    copiesOf: (document) => copiesOfDocument(document, graph),
  });
  return {
    graph,
    lapsedBy: (id) => approvals.of(id)?.changed ?? [],
    copiesIn: (content: RowContent) =>
      plan.filesOf(content).flatMap((file) => (file.kind === 'document' ? [file.copy] : [])),
    sourcesIn: (content: RowContent) =>
      plan.filesOf(content).flatMap((file) => (file.kind === 'file' ? [file.source] : [])),
    links: { document: besideThis, file: () => undefined, shows: () => undefined },
  };
};

const unknownName = (field: string, what: string, name: string, known: readonly string[]): ViewProblem => {
  const near = nearestName(name, known);
  return {
    path: [field],
    message: `${what} "${name}"`,
    hint: near
      ? `Did you mean "${near}"?`
      : known.length > 0
        ? `Use one of: ${known.slice(0, 20).join(', ')}.`
        : 'Remove it.',
  };
};

const draw: View['draw'] = (body, context) => {
  const { of, table: key, clause, part = 'rows', ...common } = body as Options;
  const all = context.graph.recordsOf('submission');
  const submissions = all.filter((each) => (of === undefined ? isShown(each, common) : each.id === of));
  if (of !== undefined && submissions.length === 0)
    return {
      blocks: [notice(`There is no submission ${of}.`, 'bad')],
      problems: [
        unknownName(
          'of',
          'there is no submission',
          of,
          all.map((each) => each.id),
        ),
      ],
    };
  if (submissions.length === 0) return { blocks: [notice('There is no submission yet.')] };
  const problems: ViewProblem[] = [];
  const blocks = submissions.flatMap((submission): readonly Block[] => {
    const tables = submissionTables(submission, context.clauseTables);
    const drawn = tableContext(submission, tables, context);
    const shown = tables.filter((each) => key === undefined || each.table.key === key);
    // A table of the submission that does not exist has a finding of its own, and may have been meant.
    const isMisnamed = submission.fields.tables.some(({ table }) => !context.clauseTables.inUse(table));
    if (key !== undefined && shown.length === 0 && isMisnamed)
      return [notice(`${submission.id} names a table of contents that does not exist.`, 'bad')];
    if (key !== undefined && shown.length === 0)
      problems.push(
        unknownName(
          'table',
          `${submission.id} does not follow the table`,
          key,
          tables.map((each) => each.table.key),
        ),
      );
    if (part === 'documents') return [documentsTable(shown, drawn)];
    return shown.flatMap((each): readonly Block[] => {
      const rows = clause === undefined ? each.rows : rowsUnder(each, clause);
      if (clause !== undefined && !each.table.byClause.has(clause)) {
        problems.push(
          unknownName('clause', `${each.table.key} has no row`, clause, [...each.table.byClause.keys()]),
        );
        return [];
      }
      if (part === 'rows') return [rowsTable(each, rows, drawn)];
      const wanted = new Set(rows.map((row) => row.row.clause));
      const empty = emptyRows(each).filter((row) => wanted.has(row.row.clause));
      const above = answeredAboveWords(rows);
      return [
        ...(empty.length === 0
          ? [notice(`No row of ${each.table.key} is left empty.`)]
          : [rowsTable(each, empty, drawn)]),
        ...(above === undefined ? [] : [notice(`${each.table.title}. ${above}`)]),
      ];
    });
  });
  const at = blocks.findIndex((block) => block.kind === 'table');
  return {
    blocks: blocks.map((block, index) =>
      index === at ? ({ ...block, ...captionOf(common) } as Block) : block,
    ),
    problems,
  };
};

export const submissionIndex: View = { name: 'submission-index', draw, namesOnly: true };

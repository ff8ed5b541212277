import type { Block, Inline, Row } from '../document/model.ts';
import { type LegalRow, legalRows } from '../graph/legal-rows.ts';
import { compareIds } from '../graph/trace-graph.ts';
import { nearestName } from '../records/nearest-name.ts';
import { headingAt } from '../records/section-location.ts';
import { type ClauseRow, type ClauseTable, isFromMemory, rowsBelow } from '../regulation/clause-tables.ts';
import { isSetAside } from '../regulation/open-clauses.ts';
import { cell, nothing, notice, onLines, orNothing, reference, text } from './cells.ts';
import { labelContentDocuments } from './label-content-documents.ts';
import { evidencePlaces } from './legal-places.ts';
import type { View, ViewContext } from './view.ts';

type Part = 'clauses' | 'summary' | 'documents' | 'edition';

interface Options {
  readonly table: string;
  readonly part?: Part;
  readonly clauses?: readonly string[];
  readonly applicable?: 'yes' | 'no' | 'open';
  readonly caption?: string;
  readonly anchor?: string;
}

/** A clause to show: as the table has it, as the file answers it, or both. */
interface Shown {
  readonly clause: string;
  readonly known?: ClauseRow;
  readonly answer?: LegalRow;
}

const answersOf = (key: string, { graph }: ViewContext): ReadonlyMap<string, LegalRow> => {
  const answers = new Map<string, LegalRow>();
  for (const row of legalRows(graph))
    if (row.table === key && !answers.has(row.clause)) answers.set(row.clause, row);
  return answers;
};

/** Whether a clause has no row of its own and stands below one that does not apply. */
const fallsAway = (row: ClauseRow, answers: ReadonlyMap<string, LegalRow>, table: ClauseTable): boolean =>
  !answers.has(row.clause) &&
  isSetAside(
    table,
    row,
    new Map([...answers].map(([clause, { applicable }]) => [clause, applicable !== false])),
  );

/** The clause with all below it, in the order of the table; then what the record answers and the table does not have. */
const below = (
  head: ClauseRow,
  table: ClauseTable,
  answers: ReadonlyMap<string, LegalRow>,
): readonly Shown[] => {
  const known = [head, ...rowsBelow(table, head.clause)].map((row): Shown => {
    const answer = answers.get(row.clause);
    return { clause: row.clause, known: row, ...(answer ? { answer } : {}) };
  });
  const records = new Set(known.flatMap(({ answer }) => (answer ? [answer.record.id] : [])));
  const strange = [...answers.values()].filter(
    (answer) => !table.byClause.has(answer.clause) && records.has(answer.record.id),
  );
  return [...known, ...strange.map((answer): Shown => ({ clause: answer.clause, answer }))];
};

/** As which of the options `applicable` a clause counts. */
const stateOf = (
  { known, answer }: Shown,
  answers: ReadonlyMap<string, LegalRow>,
  table: ClauseTable,
): NonNullable<Options['applicable']> => {
  if (answer) return answer.applicable === true ? 'yes' : answer.applicable === false ? 'no' : 'open';
  return known && fallsAway(known, answers, table) ? 'no' : 'open';
};

const titleCell = ({ known }: Shown): readonly Inline[] =>
  known
    ? [text(known.title), ...(isFromMemory(known) ? [text(' (from memory)', { tone: 'quiet' })] : [])]
    : [text('not in this edition of the table', { tone: 'bad', bold: true })];

const appliesCell = ({ answer }: Shown, setAside: boolean): Inline => {
  if (answer?.applicable === true) return text('yes');
  if (answer?.applicable === false) return text('no');
  if (answer) return text(`not decided (${answer.applicable})`, { bold: true, tone: 'caution' });
  return setAside ? text('no', { tone: 'quiet' }) : text('not answered', { bold: true, tone: 'bad' });
};

/** Why it does not apply, or how it is met and shown. */
const wordsCell = ({ answer }: Shown, setAside: boolean): readonly Inline[] => {
  if (!answer) return [setAside ? nothing('with the clause above') : nothing('nothing yet')];
  return orNothing(
    onLines([
      ...(answer.reason === undefined ? [] : [[text(answer.reason)]]),
      ...(answer.solution === undefined ? [] : [[text(answer.solution)]]),
      ...(answer.method.length === 0
        ? []
        : [[text(`Shown by ${answer.method.join(', ')}.`, { italic: true })]]),
      ...(answer.note === undefined ? [] : [[text(`Note: ${answer.note}`)]]),
    ]),
    'not stated',
  );
};

const standardsCell = ({ answer }: Shown, { graph }: ViewContext): readonly Inline[] =>
  onLines(
    (answer?.standards ?? []).map(({ standard, extent, clauses }) => {
      const record = graph.recordOf('standard', standard);
      const edition = record ? ` ${record.fields.designation}:${record.fields.edition}` : '';
      const how = extent === undefined ? '' : extent === 'full' ? ', in full' : ', in part';
      return [reference(standard), text(`${edition}${how}${clauses === undefined ? '' : `: ${clauses}`}`)];
    }),
  );

/** Where the words of an output stand, and what its label says of each particular: an index row shows neither. */
const contentLinks = (id: string, { graph }: ViewContext): readonly Inline[] => {
  const output = graph.recordOf('design-output', id);
  if (!output) return [];
  const { wording, particulars } = output.fields;
  const contents = particulars === undefined ? [] : labelContentDocuments(graph);
  const links = [...new Set([...(wording === undefined ? [] : [wording]), ...contents])];
  return links.flatMap((link, index) => [text(index === 0 ? '; words in ' : ', '), reference(link)]);
};

/** The words of a location; a link to the heading that it names, where the document has one with an anchor. */
const locationWords = (id: string, location: string, { graph, placeOf }: ViewContext): Inline => {
  // The document itself, or the one that holds the words of a label or of instructions.
  const document = graph.recordOf('document', graph.recordOf('design-output', id)?.fields.wording ?? id);
  const place = document && document.fields.for_each === undefined ? placeOf(document.id) : undefined;
  const index = place ? headingAt(location, place.headings) : undefined;
  const anchor = index === undefined ? undefined : place?.headings[index]?.anchor;
  return place && anchor !== undefined
    ? { kind: 'file-link', ...place.file, anchor, children: [text(location)] }
    : text(location);
};

const evidenceCell = ({ answer }: Shown, context: ViewContext): readonly Inline[] =>
  onLines(
    (answer?.evidence ?? []).map(({ record, location }) => {
      const place = context.placeOf(record);
      const where = place ? ` ${place.document.id === record ? '' : 'in '}${place.number}` : '';
      return [
        reference(record),
        text(where),
        ...(location === undefined
          ? []
          : [text(where === '' ? ' ' : ', '), locationWords(record, location, context)]),
        ...contentLinks(record, context),
      ];
    }),
  );

const rowOf = (
  shown: Shown,
  answers: ReadonlyMap<string, LegalRow>,
  table: ClauseTable,
  context: ViewContext,
): Row => {
  const setAside = shown.known !== undefined && fallsAway(shown.known, answers, table);
  const applies = shown.answer !== undefined && shown.answer.applicable !== false;
  return {
    cells: [
      cell(text(shown.clause, shown.known?.parent === undefined ? { bold: true } : {})),
      cell(...titleCell(shown)),
      cell(appliesCell(shown, setAside)),
      cell(...wordsCell(shown, setAside)),
      cell(...orNothing(standardsCell(shown, context), applies ? 'none' : '–')),
      cell(...orNothing(evidenceCell(shown, context), applies ? 'none yet' : '–')),
    ],
  };
};

const clauseTables = (
  options: Options,
  heads: readonly ClauseRow[],
  table: ClauseTable,
  context: ViewContext,
): readonly Block[] => {
  const answers = answersOf(table.key, context);
  const level = Math.min(6, context.enclosingLevel + 1) as 1 | 2 | 3 | 4 | 5 | 6;
  const headed = new Set<string>();
  const blocks = heads.flatMap((head): readonly Block[] => {
    const shown = below(head, table, answers).filter(
      (each) => options.applicable === undefined || stateOf(each, answers, table) === options.applicable,
    );
    if (shown.length === 0) return [];
    const record = answers.get(head.clause)?.record.id;
    const opens = record !== undefined && !headed.has(record);
    if (record !== undefined) headed.add(record);
    return [
      {
        kind: 'heading',
        level,
        children: [text(`${table.kind === 'law' ? 'Requirement' : 'Clause'} ${head.clause}: ${head.title}`)],
        ...(opens ? { recordId: record } : {}),
      },
      {
        kind: 'table',
        // Without a caption: the heading above says what it is. The anchor joins the tables in one file of values.
        ...(options.anchor === undefined ? {} : { anchor: options.anchor }),
        columns: [
          { title: 'Clause', width: 9 },
          { title: 'Requirement, in our own words', width: 22 },
          { title: 'Applies', width: 8 },
          { title: 'Why not, or how it is met', width: 36 },
          { title: 'Standards', width: 18 },
          { title: 'Evidence', width: 22 },
        ],
        rows: shown.map((each) => rowOf(each, answers, table, context)),
        description: `Clause ${head.clause} with its sub-clauses: whether each applies, how it is met, by which standards, and where the evidence is.`,
      },
    ];
  });
  return blocks.length > 0 ? blocks : [notice('There are no such clauses.')];
};

const captioned = ({ caption, anchor }: Options) => ({
  ...(caption === undefined ? {} : { caption }),
  ...(anchor === undefined ? {} : { anchor }),
});

/** How many clauses apply, do not, and are open, by requirement. */
const summary = (
  options: Options,
  heads: readonly ClauseRow[],
  table: ClauseTable,
  context: ViewContext,
): readonly Block[] => {
  const answers = answersOf(table.key, context);
  const counted = heads.map((head) => {
    const states = below(head, table, answers)
      .filter(({ known }) => known)
      .map((each) => stateOf(each, answers, table));
    const count = (state: string): number => states.filter((each) => each === state).length;
    return { head, total: states.length, yes: count('yes'), no: count('no'), open: count('open') };
  });
  const sum = (pick: (each: (typeof counted)[number]) => number): number =>
    counted.reduce((total, each) => total + pick(each), 0);
  const openCell = (count: number): Inline =>
    count === 0 ? text('0') : text(String(count), { bold: true, tone: 'caution' });
  return [
    {
      kind: 'table',
      ...captioned(options),
      columns: [
        { title: 'Clause', width: 8 },
        { title: 'Requirement, in our own words', width: 50 },
        { title: 'Rows', width: 8, align: 'right' },
        { title: 'Apply', width: 8, align: 'right' },
        { title: 'Do not apply', width: 8, align: 'right' },
        { title: 'Open', width: 8, align: 'right' },
        { title: 'Record', width: 10 },
      ],
      rows: [
        ...counted.map((each) => {
          const answer = answers.get(each.head.clause);
          return {
            cells: [
              cell(text(each.head.clause)),
              cell(text(each.head.title)),
              cell(text(String(each.total))),
              cell(text(String(each.yes))),
              cell(text(String(each.no))),
              cell(openCell(each.open)),
              cell(answer ? reference(answer.record.id) : nothing('none')),
            ],
          };
        }),
        {
          cells: [
            cell(text('All', { bold: true })),
            cell(text(`${counted.length} requirements`)),
            cell(text(String(sum((each) => each.total)))),
            cell(text(String(sum((each) => each.yes)))),
            cell(text(String(sum((each) => each.no)))),
            cell(openCell(sum((each) => each.open))),
            cell(nothing('–')),
          ],
        },
      ],
      description:
        'Each row is one requirement: how many rows it has with its sub-clauses, how many apply, do not apply and are open.',
    },
  ];
};

/** The controlled documents that hold the evidence, and what of it stands in records alone. */
const documents = (
  options: Options,
  heads: readonly ClauseRow[],
  table: ClauseTable,
  context: ViewContext,
): readonly Block[] => {
  const wanted = new Set(
    heads.flatMap((head) => [head, ...rowsBelow(table, head.clause)].map((row) => row.clause)),
  );
  const rows = [...answersOf(table.key, context).values()].filter((row) => wanted.has(row.clause));
  const { held, recordsOnly } = evidencePlaces(rows, context);
  const list = (ids: readonly string[]): readonly Inline[] =>
    [...ids].sort(compareIds).flatMap((id, index) => [...(index === 0 ? [] : [text(', ')]), reference(id)]);
  return [
    {
      kind: 'table',
      ...captioned(options),
      columns: [
        { title: 'Number', width: 20 },
        { title: 'Title', width: 40 },
        { title: 'Revision', width: 10 },
        { title: 'Status', width: 12 },
        { title: 'Evidence in it', width: 44 },
      ],
      rows: [
        ...held.map(({ place, records }) => ({
          cells: [
            cell(text(place.number)),
            cell({
              kind: 'file-link',
              ...place.file,
              children: [text(`${place.document.id} ${place.title}`)],
            }),
            cell(text(place.revision)),
            cell(text(place.status, place.status === 'approved' ? {} : { bold: true, tone: 'caution' })),
            cell(...list(records)),
          ],
        })),
        ...(recordsOnly.length === 0
          ? []
          : [
              {
                cells: [
                  cell(nothing('none')),
                  cell(text('In no document: the records themselves')),
                  cell(nothing('–')),
                  cell(nothing('–')),
                  cell(...list(recordsOnly)),
                ],
              },
            ]),
      ],
      description: 'The documents in which the evidence stands, with number and revision.',
    },
  ];
};

/** Which edition was worked to, and how its rows are known. */
const edition = (table: ClauseTable, context: ViewContext): readonly Block[] => {
  const editions = context.clauseTables.editionsOf(table.key);
  const rows = Object.entries(table.provenance).flatMap(([key, how]) => {
    const count = table.rows.filter((row) => row.provenance === key).length;
    return count === 0 ? [] : [{ count, how }];
  });
  return [
    {
      kind: 'particulars',
      entries: [
        { name: 'Table', value: [text(table.title)] },
        { name: 'Source', value: [text(table.source)] },
        { name: 'Edition', value: [text(table.edition)] },
        {
          name: 'Editions at hand',
          value: [text(editions.map((each) => each.edition).join(', '))],
        },
        { name: 'Rows', value: [text(String(table.rows.length))] },
        {
          name: 'How the rows are known',
          value: onLines(
            rows.map(({ count, how }) => [text(`${count} ${count === 1 ? 'row' : 'rows'}: ${how}`)]),
          ),
        },
      ],
    },
  ];
};

const draw: View['draw'] = (body, context) => {
  const options = body as unknown as Options;
  const table = context.clauseTables.inUse(options.table);
  if (!table) {
    const near = nearestName(options.table, context.clauseTables.keys);
    return {
      blocks: [],
      problems: [
        {
          path: ['table'],
          message: `there is no clause table "${options.table}"`,
          hint: near ? `Did you mean "${near}"?` : `Use one of: ${context.clauseTables.keys.join(', ')}.`,
        },
      ],
    };
  }
  const strange = (options.clauses ?? []).flatMap((clause, index) =>
    table.byClause.has(clause)
      ? []
      : [
          {
            path: ['clauses', index],
            message: `${table.key} of ${table.edition} has no clause ${clause}`,
            hint: 'Name clauses of the table; each is shown with what stands below it.',
          },
        ],
  );
  if (strange.length > 0) return { blocks: [], problems: strange };
  const heads = options.clauses
    ? options.clauses.flatMap((clause) => table.byClause.get(clause) ?? [])
    : table.rows.filter((row) => row.parent === undefined);
  switch (options.part ?? 'clauses') {
    case 'clauses':
      return { blocks: clauseTables(options, heads, table, context) };
    case 'summary':
      return { blocks: summary(options, heads, table, context) };
    case 'documents':
      return { blocks: documents(options, heads, table, context) };
    case 'edition':
      return { blocks: edition(table, context) };
  }
};

/** Clause by clause whether it applies, why not or how it is met, by which standards, and where the evidence is. */
export const legalRequirementsView: View = { name: 'legal-requirements', draw };

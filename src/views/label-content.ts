import type { Block, Inline, Table } from '../document/model.ts';
import { isDecided, type LegalRow, legalRows } from '../graph/legal-rows.ts';
import { gtinProblem, readShortDate } from '../records/gs1.ts';
import { applicationIdentifiers } from '../records/gs1-application-identifiers.ts';
import { type IdentifierElement, readElementString } from '../records/gs1-element-string.ts';
import type { RecordOf } from '../records/record.ts';
import { isOfSymbolTable, labelSymbolSource, labelSymbols } from '../regulation/label-symbols.ts';
import { cell, nothing, notice, onLines, orNothing, reference, text } from './cells.ts';
import type { View, ViewContext } from './view.ts';

type Output = RecordOf<'design-output'>;

type Part = 'particulars' | 'symbols' | 'identifier' | 'languages';

interface Options {
  readonly part?: Part;
  readonly clauses?: readonly string[];
  readonly caption?: string;
  readonly anchor?: string;
}

const lists = ['23.2', '23.3', '23.4'];

/** Outputs that carry words for the user. */
const carriers = ({ graph }: ViewContext): readonly Output[] =>
  graph
    .recordsOf('design-output')
    .filter(
      ({ status, fields }) =>
        status !== 'retired' &&
        (fields.kind === 'label' ||
          fields.kind === 'instructions for use' ||
          (fields.kind === 'packaging' && fields.particulars !== undefined)),
    );

const revision = ({ fields }: Output): string => `, revision ${fields.revision}`;

/** A symbol by its number and, where the table knows it, what it means. */
const symbolWords = (symbol: string, standard: string | undefined): string => {
  const known = isOfSymbolTable(standard) ? labelSymbols.get(symbol) : undefined;
  return known ? `${symbol} ${known.title}` : `${standard ?? ''} ${symbol}`.trim();
};

const symbolsFor = (output: Output, clause: string): readonly (readonly Inline[])[] =>
  (output.fields.symbols ?? [])
    .filter(({ answers }) => answers.includes(clause))
    .map(({ symbol, standard }) => [text(symbolWords(symbol, standard))]);

/** What an output says of the CE marking, which stands in no clause of Annex I. */
const markingWords = ({ fields: { ce_marking: marking } }: Output): readonly Inline[] => [
  text(
    marking?.number === undefined
      ? (marking?.reason ?? 'the marking, without a number')
      : `CE ${marking.number}`,
  ),
];

/** The row on the CE marking of labels or of instructions; none where no record tells of it. */
const markingRows = (outputs: readonly Output[], isWanted: (output: Output) => boolean): Table['rows'] => {
  const marked = outputs.filter((output) => output.fields.ce_marking !== undefined && isWanted(output));
  return marked.length === 0
    ? []
    : [
        {
          cells: [
            cell(text('Article 20')),
            cell(text('CE marking with the number of the notified body, where one takes part (from memory)')),
            cell(nothing('by the class')),
            cell(...onLines(marked.map((output) => [reference(output.id), text(revision(output))]))),
            cell(...onLines(marked.map(markingWords))),
            cell(nothing()),
          ],
        },
      ];
};

const isLeaflet = ({ fields }: Output): boolean => fields.kind === 'instructions for use';

const particulars = (options: Options, context: ViewContext): Table => {
  const outputs = carriers(context);
  const requirements = new Map(
    legalRows(context.graph)
      .filter((row) => row.table === 'eu-mdr-annex-1')
      .map((row) => [row.clause, row]),
  );
  const wanted = options.clauses ?? lists;
  const rows = (context.clauseTables.inUse('eu-mdr-annex-1')?.rows ?? []).filter(({ clause }) =>
    wanted.some((list) => clause.startsWith(`${list}(`)),
  );
  return {
    kind: 'table',
    ...(options.caption === undefined ? {} : { caption: options.caption }),
    ...(options.anchor === undefined ? {} : { anchor: options.anchor }),
    columns: [
      { title: 'Clause', width: 10 },
      { title: 'Particular', width: 24 },
      { title: 'Applies', width: 24 },
      { title: 'Where', width: 14 },
      { title: 'What it says', width: 42 },
      { title: 'Symbols', width: 24 },
    ],
    rows: [
      ...rows.map(({ clause, title }) => particularRow(clause, title, outputs, requirements.get(clause))),
      ...(wanted.includes('23.2') ? markingRows(outputs, (output) => !isLeaflet(output)) : []),
      ...(wanted.includes('23.4') ? markingRows(outputs, isLeaflet) : []),
    ],
    description:
      'Each row is one particular of Annex I 23.2, 23.3 or 23.4: whether it applies, where it stands, its words and its symbols.',
  };
};

const particularRow = (
  clause: string,
  title: string,
  outputs: readonly Output[],
  requirement: LegalRow | undefined,
): Table['rows'][number] => {
  const found = outputs.flatMap((output) =>
    (output.fields.particulars ?? [])
      .filter((each) => each.clause === clause)
      .map(({ content }) => ({ output, content })),
  );
  const missing = requirement?.applicable === true && found.length === 0;
  return {
    ...(requirement ? { recordId: requirement.record.id } : {}),
    cells: [
      cell(text(clause)),
      cell(text(title)),
      cell(...appliesWords(requirement)),
      cell(
        ...orNothing(
          onLines(found.map(({ output }) => [reference(output.id), text(revision(output))])),
          missing ? 'nowhere' : 'none',
        ),
      ),
      cell(
        ...(missing
          ? [text('missing', { tone: 'bad', bold: true })]
          : orNothing(onLines(found.map(({ content }) => [text(content)])))),
      ),
      cell(...orNothing(onLines(outputs.flatMap((output) => symbolsFor(output, clause))))),
    ],
  };
};

const appliesWords = (requirement: LegalRow | undefined): readonly Inline[] => {
  if (!requirement || !isDecided(requirement)) return [text('not decided', { tone: 'caution', bold: true })];
  const { applicable, reason } = requirement;
  return onLines([
    [text(applicable ? 'yes' : 'no', { bold: true })],
    ...(reason === undefined ? [] : [[text(reason)]]),
  ]);
};

const symbols = (context: ViewContext): readonly Block[] => {
  const carried = carriers(context).flatMap((output) =>
    (output.fields.symbols ?? []).map((symbol) => ({ output, symbol })),
  );
  if (carried.length === 0) return [notice('No symbols are listed yet.')];
  return [
    {
      kind: 'table',
      columns: [
        { title: 'Symbol', width: 10 },
        { title: 'Meaning', width: 34 },
        { title: 'Registered as', width: 20 },
        { title: 'Beside it', width: 34 },
        { title: 'Particulars', width: 22 },
        { title: 'On', width: 12 },
      ],
      rows: carried.map(({ output, symbol }) => {
        const known = isOfSymbolTable(symbol.standard) ? labelSymbols.get(symbol.symbol) : undefined;
        return {
          cells: [
            cell(text(symbol.symbol)),
            cell(text(known?.title ?? `see ${symbol.standard ?? 'the standard'}`)),
            cell(known?.registration === undefined ? nothing() : text(known.registration)),
            cell(symbol.beside === undefined ? nothing() : text(symbol.beside)),
            cell(...orNothing([text(symbol.answers.join(', '))].filter(({ value }) => value !== ''))),
            cell(reference(output.id)),
          ],
        };
      }),
      description: 'Each row is one symbol with its number in the standard and what stands beside it.',
    },
    notice(
      `Numbers are those of ${labelSymbolSource.standard}:${labelSymbolSource.edition} as known from public glossaries and from memory. The standard decides.`,
    ),
  ];
};

/** What an element of an identifier says, in words. */
const elementWords = ({ application, value }: IdentifierElement, context: ViewContext): readonly Inline[] => {
  const row = applicationIdentifiers.get(application);
  if (row?.content === 'date') {
    const date = readShortDate(value, Number(context.asOf.slice(0, 4)));
    if (!date) return [text('no date', { tone: 'bad', bold: true })];
    return [text(date.isWholeMonth ? `${date.day.slice(0, 7)}, the whole month` : date.day)];
  }
  if (application !== '01') return [nothing('as printed')];
  const level = context.project.fields.device.identifiers?.find((each) => each.gtin === value)?.level;
  const problem = gtinProblem(value, [14]);
  if (problem) return [text('check digit or form is wrong', { tone: 'bad', bold: true })];
  return [text(`${level ?? 'none of the packaging levels'}; check digit ${value.at(-1)} is right`)];
};

const identifier = (context: ViewContext): readonly Block[] => {
  const labelled = carriers(context).filter(({ fields }) => fields.udi !== undefined);
  if (labelled.length === 0) return [notice('No label has a unique device identifier yet.')];
  return [
    {
      kind: 'table',
      columns: [
        { title: 'On', width: 12 },
        { title: 'Element', width: 30 },
        { title: 'Value', width: 30 },
        { title: 'Says', width: 44 },
      ],
      rows: labelled.flatMap((output) =>
        readElementString(output.fields.udi ?? '').elements.map((element) => ({
          cells: [
            cell(reference(output.id)),
            cell(
              text(
                `(${element.application}) ${applicationIdentifiers.get(element.application)?.meaning ?? 'not known to Plinth'}`,
              ),
            ),
            cell(text(element.value, { code: true })),
            cell(...elementWords(element, context)),
          ],
        })),
      ),
      description: 'The unique device identifier of each label, element by element.',
    },
  ];
};

const languages = (context: ViewContext): readonly Block[] => {
  const markets = context.project.fields.markets ?? [];
  if (markets.length === 0) return [notice('plinth.yaml lists no markets yet.')];
  const outputs = carriers(context).filter(({ fields }) => fields.kind !== 'packaging');
  return [
    {
      kind: 'table',
      columns: [
        { title: 'Market', width: 16 },
        { title: 'Languages needed', width: 20 },
        { title: 'Looked up', width: 40 },
        { title: 'Released', width: 40 },
      ],
      rows: markets.map(({ market, languages: needed, source }) => ({
        cells: [
          cell(text(market)),
          cell(text(needed.join(', '))),
          cell(source === undefined ? nothing('not stated') : text(source)),
          cell(
            ...onLines(
              outputs.map((output) => [
                reference(output.id),
                text(`: ${output.fields.languages?.join(', ') ?? 'not stated'}`),
              ]),
            ),
          ),
        ],
      })),
      description: 'Each row is one market with the languages that are needed and those that are released.',
    },
  ];
};

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  if (carriers(context).length === 0)
    return { blocks: [notice('There are no labels or instructions for use yet.')] };
  const parts: Readonly<Record<Part, () => readonly Block[]>> = {
    particulars: () => [particulars(options, context)],
    symbols: () => symbols(context),
    identifier: () => identifier(context),
    languages: () => languages(context),
  };
  const captioned = (blocks: readonly Block[]): readonly Block[] =>
    blocks.map((block, index) =>
      index === 0 && block.kind === 'table' && options.part !== undefined
        ? {
            ...block,
            ...(options.caption === undefined ? {} : { caption: options.caption }),
            ...(options.anchor === undefined ? {} : { anchor: options.anchor }),
          }
        : block,
    );
  if (options.part !== undefined) return { blocks: captioned(parts[options.part]()) };
  return { blocks: Object.values(parts).flatMap((make) => make()) };
};

export const labelContent: View = { name: 'label-content', draw };

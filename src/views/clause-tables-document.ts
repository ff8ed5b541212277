import type { ClauseEffect, EditionEffect } from '../change/edition-effect.ts';
import type { Block, Document } from '../document/model.ts';
import { shortCaution } from '../document/short-caution.ts';
import { applicabilityWords, legalRows } from '../graph/legal-rows.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { type ClauseTable, type ClauseTables, isFromMemory } from '../regulation/clause-tables.ts';
import { cell, nothing, notice, onLines, orNothing, reference, text } from './cells.ts';
import { commaIds, heading, paragraph, table } from './vouch-pieces.ts';

interface About {
  readonly graph: TraceGraph;
  readonly toolVersion: string;
}

const caution =
  'The titles are in our own words and serve to find a clause. What a clause asks, and what a new edition means for a device, is read in the text itself by people who are qualified to judge it.';

const documentOf = (
  title: string,
  subtitle: string,
  blocks: readonly Block[],
  { graph, toolVersion }: About,
): Document => ({
  id: 'clauses',
  title,
  subtitle,
  number: 'Clause tables',
  revision: '',
  status: 'report',
  date: '',
  organisation: '',
  product: '',
  language: 'en-GB',
  signatures: [],
  blocks,
  footnotes: [],
  caution: shortCaution,
  provenance: [
    { name: 'Compiled with', value: `plinth ${toolVersion}` },
    { name: 'Caution', value: caution },
  ],
  recordTitles: new Map([...graph.records.values()].map((record) => [record.id, record.title])),
});

/** What the file makes of a table. */
export interface TableUse {
  readonly table: ClauseTable;
  readonly isInUse: boolean;
  readonly isNamed: boolean;
  readonly answered: number;
  /** Submissions that follow its order. */
  readonly submissions: readonly string[];
  readonly fromMemory: number;
}

/** All tables at hand with what the technical file makes of each. */
export const tableUses = (
  tables: ClauseTables,
  graph: TraceGraph,
  named: readonly { readonly table: string }[],
): readonly TableUse[] => {
  const rows = legalRows(graph);
  return tables.all.map((each) => {
    const isInUse = tables.inUse(each.key) === each;
    return {
      table: each,
      isInUse,
      isNamed: isInUse && named.some((one) => one.table === each.key),
      answered: isInUse
        ? new Set(
            rows
              .filter((row) => row.table === each.key && each.byClause.has(row.clause))
              .map((row) => row.clause),
          ).size
        : 0,
      submissions: isInUse
        ? graph
            .recordsOf('submission')
            .filter(
              ({ status, fields }) =>
                status !== 'retired' && fields.tables.some((one) => one.table === each.key),
            )
            .map(({ id }) => id)
        : [],
      fromMemory: each.rows.filter(isFromMemory).length,
    };
  });
};

/** The clause tables at hand. */
export const clauseTablesDocument = (uses: readonly TableUse[], about: About): Document =>
  documentOf(
    'Clause tables',
    'Tables and editions at hand',
    [
      table(
        'Tables and editions',
        [
          { title: 'Table', width: 20 },
          { title: 'What', width: 40 },
          { title: 'Edition', width: 14 },
          { title: 'Rows', width: 8, align: 'right' },
          { title: 'From memory', width: 10, align: 'right' },
          { title: 'In this file', width: 24 },
        ],
        uses.map(({ table: each, isNamed, answered, submissions, fromMemory }) => [
          cell(text(each.key)),
          cell(
            ...onLines([
              [text(each.title)],
              ...(each.file === undefined ? [] : [[text(`from ${each.file}`, { tone: 'quiet' })]]),
            ]),
          ),
          cell(text(each.edition)),
          cell(text(String(each.rows.length))),
          cell(text(String(fromMemory), fromMemory > 0 ? { tone: 'caution' } : {})),
          cell(
            isNamed || answered > 0 || submissions.length > 0
              ? text(
                  [
                    ...(isNamed ? ['named in plinth.yaml'] : []),
                    ...(answered > 0 || isNamed ? [`${answered} rows answered`] : []),
                    ...(submissions.length > 0 ? [`order of ${submissions.join(', ')}`] : []),
                  ].join(', '),
                )
              : nothing('not used'),
          ),
        ]),
      ),
      paragraph(
        text(
          'Rows from memory were compared with no text, and no error rests on one alone. A table of your own goes to clause-tables/ in the technical file, for example a consolidated edition.',
        ),
      ),
    ],
    about,
  );

const changeWords: Readonly<Record<ClauseEffect['change'], string>> = {
  added: 'new',
  gone: 'gone',
  changed: 'reads otherwise',
};

const clauseOf = ({ before, after }: ClauseEffect): string => after?.clause ?? before?.clause ?? '';

/** Two editions side by side, with the records that hang on what differs. */
export const editionsDocument = (effect: EditionEffect, about: About): Document => {
  const { before, after, effects, same, requirements } = effect;
  const count = (change: ClauseEffect['change']): number =>
    effects.filter((each) => each.change === change).length;
  return documentOf(
    `Editions of ${before.key}`,
    `${before.edition} and ${after.edition}`,
    [
      {
        kind: 'particulars',
        entries: [
          { name: 'Earlier edition', value: [text(`${before.edition}: ${before.source}`)] },
          { name: 'Later edition', value: [text(`${after.edition}: ${after.source}`)] },
          {
            name: 'Clauses',
            value: [
              text(
                `${same} the same, ${count('added')} new, ${count('gone')} gone, ${count('changed')} with another title or place`,
              ),
            ],
          },
          {
            name: 'Legal requirements to read again',
            value: requirements.length > 0 ? commaIds(requirements) : [nothing('none')],
          },
        ],
      },
      heading(1, 'Clauses that differ'),
      ...(effects.length === 0
        ? [notice('The two editions have the same clauses with the same titles.')]
        : [
            table(
              'Clauses that differ, and what hangs on them',
              [
                { title: 'Clause', width: 10 },
                { title: 'Change', width: 12 },
                { title: 'Earlier', width: 28 },
                { title: 'Later', width: 28 },
                { title: 'Answered', width: 20 },
                { title: 'Records', width: 22 },
              ],
              effects.map((each) => [
                cell(text(clauseOf(each), { bold: true })),
                cell(text(changeWords[each.change])),
                cell(each.before ? text(each.before.title) : nothing('–')),
                cell(each.after ? text(each.after.title) : nothing('–')),
                cell(
                  ...(each.answer
                    ? [
                        reference(each.answer.record.id),
                        text(`, applies: ${applicabilityWords(each.answer.applicable)}`),
                      ]
                    : [nothing(each.change === 'added' ? 'not yet' : 'not answered')]),
                ),
                cell(...orNothing(onLines(each.records.map((id) => [reference(id)])))),
              ]),
            ),
          ]),
      paragraph(
        text(
          'Clauses are matched by their numbers, and titles are somebody’s own words: a clause may have moved without a trace here, or read otherwise without a new meaning. Read both texts before you decide.',
        ),
      ),
    ],
    about,
  );
};

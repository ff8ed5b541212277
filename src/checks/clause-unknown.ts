import type { Place } from '../findings/finding.ts';
import { legalRowsOf, placeOfRow } from '../graph/legal-rows.ts';
import { nearestName } from '../records/nearest-name.ts';
import { placeOf } from '../records/record.ts';
import { type ClauseTables, mayLackClauses } from '../regulation/clause-tables.ts';
import { meantClause } from '../regulation/meant-clause.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

interface Subject {
  readonly owner: string;
  readonly records: readonly string[];
  readonly table: string;
  readonly tablePlace: Place;
  /** Edition that plinth.yaml says the file works to. */
  readonly edition?: string;
  readonly editionPlace?: Place;
  readonly clause?: string;
  readonly clausePlace?: Place;
  /** A row of sub-clauses, whose table is that of the record, or a particular, whose table is given by the law. */
  readonly isRow?: boolean;
}

/** Particulars of labels and instructions are those of 23.2, 23.3 and 23.4 of this table. */
const particularsTable = 'eu-mdr-annex-1';

const subjectsOf = ({ graph, project }: CheckContext): readonly Subject[] => [
  ...(project.fields.clause_tables ?? []).map(({ table, edition }, index) => ({
    owner: 'plinth.yaml',
    records: [],
    table,
    tablePlace: project.yaml.place(['clause_tables', index, 'table']),
    edition,
    editionPlace: project.yaml.place(['clause_tables', index, 'edition']),
  })),
  ...graph
    .recordsOf('legal-requirement')
    .filter((requirement) => requirement.status !== 'retired')
    .flatMap((requirement) =>
      legalRowsOf(requirement).map((row) => ({
        owner: requirement.id,
        records: [requirement.id],
        table: row.table,
        tablePlace: placeOf(requirement, 'table'),
        clause: row.clause,
        clausePlace: placeOfRow(row, 'clause'),
        isRow: row.path.length > 0,
      })),
    ),
  ...graph
    .recordsOf('design-output')
    .filter((output) => output.status !== 'retired')
    .flatMap((output) =>
      (output.fields.particulars ?? []).flatMap(({ clause }, index): readonly Subject[] => {
        const place = placeOf(output, 'particulars', index, 'clause');
        // The table has chapters of one or two digits; other laws on labels, such as part 801, are not looked up.
        return /^\d{1,2}(?!\d)/.test(clause)
          ? [
              {
                owner: output.id,
                records: [output.id],
                table: particularsTable,
                tablePlace: place,
                clause,
                clausePlace: place,
                isRow: true,
              },
            ]
          : [];
      }),
    ),
];

/** The clause that is meant, else the nearest. */
const nearestClause = (clause: string, known: readonly string[]): string | undefined =>
  meantClause(clause, known) ?? nearestName(clause, known);

const judge = (subject: Subject, { clauseTables }: CheckContext): readonly Draft[] => {
  const { owner, records, table, clause } = subject;
  const found = clauseTables.inUse(table);
  if (!found) return subject.isRow ? [] : unknownTable(subject, clauseTables);
  if (subject.edition !== undefined && !clauseTables.edition(table, subject.edition))
    return [
      {
        place: subject.editionPlace ?? subject.tablePlace,
        message: `${owner} names the edition ${subject.edition} of ${table}, which is not at hand`,
        hint: `Use one of: ${clauseTables
          .editionsOf(table)
          .map((each) => each.edition)
          .join(', ')}; or put the edition into the folder clause-tables.`,
        records,
        data: { table, edition: subject.edition },
      },
    ];
  if (clause === undefined || found.byClause.has(clause)) return [];
  const near = nearestClause(clause, [...found.byClause.keys()]);
  if (mayLackClauses(found))
    return [
      {
        level: 'warning',
        place: subject.clausePlace ?? subject.tablePlace,
        message: `${owner} names the clause "${clause}", which is not in the ${found.extract ? 'extract' : 'rows'} of ${table} (${found.edition}) that Plinth holds`,
        hint: `${near ? `Did you mean "${near}"? ` : ''}If ${found.source.split(/[,;]/, 1)[0]} has this clause, bring a table of your own that has it: "plinth explain clause-tables".`,
        records,
        data: { table, clause },
      },
    ];
  return [
    {
      place: subject.clausePlace ?? subject.tablePlace,
      message: `${owner} names the clause "${clause}", which ${table} (${found.edition}) does not have`,
      hint: near ? `Did you mean "${near}"?` : `Use a number as in ${found.source}.`,
      records,
      data: { table, clause },
    },
  ];
};

const unknownTable = (
  { owner, records, table, tablePlace }: Subject,
  { keys }: ClauseTables,
): readonly Draft[] => {
  const near = nearestName(table.toLowerCase(), keys);
  return [
    {
      place: tablePlace,
      message: `${owner} names the unknown clause table "${table}"`,
      hint: near ? `Did you mean "${near}"?` : `The tables are: ${keys.join(', ')}.`,
      records,
      data: { table },
    },
  ];
};

export const clauseUnknown = defineCheck({
  code: 'clause-unknown',
  level: 'error',
  title: 'A clause, an edition or a table of clauses does not exist',
  basis: 'Regulation (EU) 2017/745 Annex II 4',
  explain:
    'The record names a clause that the table does not have, among the particulars of a label or of instructions too, or a table that neither the tool nor the folder `clause-tables` has; or plinth.yaml names an edition that is not at hand. Other checks look clauses up by their number, so the row is not judged by them. Where the table is an extract, or some of its rows are from memory, the source may have the clause all the same: then it is a warning.\n\nThe requirement that was meant stands unanswered while its row seems to be filled in. For a reviewer, a wrong number is evidence that leads nowhere.\n\nWrite the number as the law prints it, with points in brackets: `23.3(h)`. Put it in quotation marks where it would otherwise be read as a number: `"14.4"`. `plinth clauses` lists tables and editions.',
  examines: 'clauses named',
  subjects: subjectsOf,
  judge,
});

import type { Place } from '../findings/finding.ts';
import { nearestName } from '../records/nearest-name.ts';
import { placeOf } from '../records/record.ts';
import { clauseTable, clauseTables } from '../regulation/clause-tables.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

interface Subject {
  readonly owner: string;
  readonly records: readonly string[];
  readonly table: string;
  readonly tablePlace: Place;
  readonly clause?: string;
  readonly clausePlace?: Place;
}

const subjectsOf = ({ graph, project }: CheckContext): readonly Subject[] => [
  ...(project.fields.clause_tables ?? []).map(({ table }, index) => ({
    owner: 'plinth.yaml',
    records: [],
    table,
    tablePlace: project.yaml.place(['clause_tables', index, 'table']),
  })),
  ...graph
    .recordsOf('legal-requirement')
    .filter((requirement) => requirement.status !== 'retired')
    .map((requirement) => ({
      owner: requirement.id,
      records: [requirement.id],
      table: requirement.fields.table,
      tablePlace: placeOf(requirement, 'table'),
      clause: requirement.fields.clause,
      clausePlace: placeOf(requirement, 'clause'),
    })),
];

/** The clause that is meant: the same letters and digits with other brackets or blanks, else the nearest. */
const nearestClause = (clause: string, known: readonly string[]): string | undefined => {
  const bare = (text: string): string =>
    text
      .toLowerCase()
      .replace(/[^a-z0-9.]/g, '')
      .replace(/\.$/, '');
  return known.find((each) => bare(each) === bare(clause)) ?? nearestName(clause, known);
};

const judge = ({ owner, records, table, tablePlace, clause, clausePlace }: Subject): readonly Draft[] => {
  const found = clauseTable(table);
  if (!found) {
    const keys = clauseTables.map((each) => each.key);
    const near = nearestName(table, keys);
    return [
      {
        place: tablePlace,
        message: `${owner} names the unknown clause table "${table}"`,
        hint: near ? `Did you mean "${near}"?` : `The tables are: ${keys.join(', ')}.`,
        records,
        data: { table },
      },
    ];
  }
  if (clause === undefined || found.byClause.has(clause)) return [];
  const near = nearestClause(clause, [...found.byClause.keys()]);
  return [
    {
      place: clausePlace ?? tablePlace,
      message: `${owner} names the clause "${clause}", which ${table} (${found.edition}) does not have`,
      hint: near ? `Did you mean "${near}"?` : `Use a number as in ${found.source}.`,
      records,
      data: { table, clause },
    },
  ];
};

export const clauseUnknown = defineCheck({
  code: 'clause-unknown',
  level: 'error',
  title: 'A clause or a table of clauses does not exist',
  basis: 'Regulation (EU) 2017/745 Annex II 4',
  explain:
    'The record names a clause that the table does not have, or a table that the tool does not ship. Other checks look clauses up by their number, so the record is not judged by them.\n\nThe requirement that was meant stands unanswered while its row seems to be filled in. For a reviewer, a wrong number is evidence that leads nowhere.\n\nWrite the number as the law prints it, with points in brackets: `23.3(h)`. Put it in quotation marks where it would otherwise be read as a number: `"14.4"`.',
  examines: 'clauses named',
  subjects: subjectsOf,
  judge,
});

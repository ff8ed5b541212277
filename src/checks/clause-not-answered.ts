import { legalRows, placeOfRow, unreadClauses } from '../graph/legal-rows.ts';
import type { ClauseRow, ClauseTable } from '../regulation/clause-tables.ts';
import { meantClause } from '../regulation/meant-clause.ts';
import { openClauses } from '../regulation/open-clauses.ts';
import { type CheckContext, defineCheck } from './check.ts';

interface Subject {
  readonly table: ClauseTable;
  readonly head: ClauseRow;
  readonly open: readonly ClauseRow[];
}

const subjectsOf = ({ graph, project, clauseTables }: CheckContext): readonly Subject[] =>
  (project.fields.clause_tables ?? []).flatMap(({ table: key }) => {
    const table = clauseTables.inUse(key);
    const rows = legalRows(graph).filter((row) => row.table === key);
    // A table that nobody has begun to answer may be there for its numbers alone.
    if (!table || rows.length === 0) return [];
    const unread = unreadClauses(graph, key);
    // Records that name a table which there is not may have meant this one.
    const elsewhere = new Set(
      graph
        .recordsOf('legal-requirement')
        .filter(({ fields, status }) => status !== 'retired' && !clauseTables.inUse(fields.table))
        .map(({ fields }) => fields.clause),
    );
    // What a row says that cannot be read holds for the clauses below it too.
    const answered = new Map([
      ...unread.clauses.map((clause) => [clause, false] as const),
      // A number that is nearly one of the table's has a finding of its own.
      ...rows.map(
        (row) =>
          [meantClause(row.clause, table.byClause.keys()) ?? row.clause, row.applicable !== false] as const,
      ),
    ]);
    return table.rows
      .filter(
        (row) => row.parent === undefined && !unread.mayAnswer(row.clause) && !elsewhere.has(row.clause),
      )
      .map((head) => ({ table, head, open: openClauses(table, head, answered) }));
  });

const most = 8;

export const clauseNotAnswered = defineCheck({
  code: 'clause-not-answered',
  level: 'warning',
  title: 'A clause of a table in use is not answered',
  basis: 'Regulation (EU) 2017/745 Annex II 4',
  explain:
    'plinth.yaml names the clause table, the file answers other clauses of it, and for this one there is no row: neither that it applies nor that it does not. What stands below a clause that does not apply is set aside with it.\n\nThe technical documentation must say of every requirement whether it applies and, where not, why. A table with gaps is sent back, and what nobody looked at is what nobody tested.\n\nAdd the rows. `plinth new legal-requirement --table KEY` writes a proposal for all that is missing, for people to confirm.',
  awaits: ['legal-requirement'],
  awaitsAnywhere: true,
  examines: 'requirements of tables in use',
  subjects: subjectsOf,
  judge: ({ table, head, open }, { graph, project }) => {
    const [first] = open;
    if (!first) return [];
    const names = open.slice(0, most).map((row) => row.clause);
    const rest = open.length - names.length;
    const nearest = legalRows(graph).find((row) => row.table === table.key && row.clause === head.clause);
    const index = (project.fields.clause_tables ?? []).findIndex((each) => each.table === table.key);
    return [
      {
        place: nearest
          ? placeOfRow(nearest, 'clause')
          : project.yaml.place(['clause_tables', index, 'table']),
        message: `${table.key} ${head.clause} "${head.title}": ${open.length === 1 ? 'clause' : 'clauses'} ${names.join(', ')}${rest > 0 ? ` and ${rest} more` : ''} ${open.length === 1 ? 'is' : 'are'} not answered`,
        hint: `Add a row for each${nearest ? ` under "clauses" of ${nearest.record.id}` : ''}, or let "plinth new legal-requirement --table ${table.key}" write a proposal.`,
        records: nearest ? [nearest.record.id] : [],
        data: { table: table.key, clause: head.clause, open: open.length },
      },
    ];
  },
});

import type { Place } from '../findings/finding.ts';
import { legalRows, placeOfRow, unreadClauses } from '../graph/legal-rows.ts';
import { placeInBody } from '../records/record.ts';
import type { ClauseRow, ClauseTable } from '../regulation/clause-tables.ts';
import { meantClause } from '../regulation/meant-clause.ts';
import { openClauses } from '../regulation/open-clauses.ts';
import { contentOf } from '../submission/submission-rows.ts';
import { type CheckContext, defineCheck } from './check.ts';

/** A requirement with its open clauses; `whole` stands for a table of which no clause is answered. */
type Subject =
  | {
      readonly kind: 'requirement';
      readonly table: ClauseTable;
      readonly head: ClauseRow;
      readonly open: readonly ClauseRow[];
    }
  | { readonly kind: 'whole'; readonly table: ClauseTable; readonly user: TableUser };

/** Who says that a clause table is answered in this file. */
interface TableUser {
  readonly key: string;
  readonly place: Place;
  readonly words: string;
  readonly records: readonly string[];
}

/** Where a document draws how the clauses of a table are answered. */
const drawnTable =
  /^```plinth legal-requirements\n(?:[^`\n]{0,400}\n){0,20}?table:[ \t]{0,9}["']?([A-Za-z0-9._-]{1,80})/gm;

/** Tables that plinth.yaml names, and those that a document of a submission draws; each once. */
const tableUsers = ({ graph, project }: CheckContext): readonly TableUser[] => {
  const users = new Map<string, TableUser>();
  for (const [index, { table: key }] of (project.fields.clause_tables ?? []).entries())
    if (!users.has(key))
      users.set(key, {
        key,
        place: project.yaml.place(['clause_tables', index, 'table']),
        words: 'plinth.yaml names it as in use',
        records: [],
      });
  for (const submission of graph.recordsOf('submission'))
    if (submission.status !== 'retired')
      for (const { content } of contentOf(submission)) {
        const document = graph.recordOf('document', content.document ?? '');
        if (!document || document.status === 'retired') continue;
        for (const match of document.body.matchAll(drawnTable)) {
          const key = match[1] ?? '';
          if (!users.has(key))
            users.set(key, {
              key,
              place: placeInBody(document, match.index, 3),
              words: `${submission.id} hands in ${document.id}, which shows it`,
              records: [document.id, submission.id],
            });
        }
      }
  return [...users.values()];
};

const subjectsOf = (context: CheckContext): readonly Subject[] =>
  tableUsers(context).flatMap((user): readonly Subject[] => {
    const { graph, clauseTables } = context;
    const { key } = user;
    const table = clauseTables.inUse(key);
    const rows = legalRows(graph).filter((row) => row.table === key);
    if (!table) return [];
    const unread = unreadClauses(graph, key);
    // Records that name a table which there is not may have meant this one.
    const elsewhere = new Set(
      graph
        .recordsOf('legal-requirement')
        .filter(({ fields, status }) => status !== 'retired' && !clauseTables.inUse(fields.table))
        .map(({ fields }) => fields.clause),
    );
    // What a row says that cannot be read holds for the clauses below it too.
    if (rows.length === 0) {
      // A table of contents is answered by a submission, and a record that cannot be read may answer this one.
      const isContents =
        table.kind === 'table of contents' ||
        graph
          .recordsOf('submission')
          .some(({ fields }) => fields.tables.some((followed) => followed.table === key));
      const mayBeAnswered =
        unread.clauses.length > 0 ||
        elsewhere.size > 0 ||
        table.rows.some((row) => row.parent === undefined && unread.mayAnswer(row.clause));
      return isContents || mayBeAnswered ? [] : [{ kind: 'whole', table, user }];
    }
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
      .map(
        (head): Subject => ({
          kind: 'requirement',
          table,
          head,
          open: openClauses(table, head, answered),
        }),
      );
  });

const most = 8;

export const clauseNotAnswered = defineCheck({
  code: 'clause-not-answered',
  level: 'warning',
  title: 'A clause of a table in use is not answered',
  basis: 'Regulation (EU) 2017/745 Annex II 4',
  explain:
    'plinth.yaml names the clause table, or a document that a submission hands in shows it, and for this clause there is no row: neither that it applies nor that it does not. What stands below a clause that does not apply is set aside with it. A table of which no clause at all is answered is one finding. Tables of contents are answered by submissions.\n\nThe technical documentation must say of every requirement whether it applies and, where not, why. A table with gaps is sent back, and what nobody looked at is what nobody tested.\n\nAdd the rows. `plinth new legal-requirement --table KEY` writes a proposal for all that is missing, for people to confirm.',
  awaits: ['legal-requirement'],
  awaitsAnywhere: true,
  examines: 'requirements of tables in use',
  subjects: subjectsOf,
  judge: (subject, { graph, project }) => {
    if (subject.kind === 'whole') {
      const { table, user } = subject;
      const heads = table.rows.filter((row) => row.parent === undefined).length;
      return [
        {
          place: user.place,
          message: `no record answers any of the ${heads} requirements of ${table.key} (${table.title}), but ${user.words}`,
          hint: `Let "plinth new legal-requirement --table ${table.key}" write a proposal for all clauses${user.records.length > 0 ? '' : ', or take the table out of "clause_tables" where the file does not work to it'}.`,
          records: user.records,
          data: { table: table.key, open: table.rows.length },
        },
      ];
    }
    const { table, head, open } = subject;
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

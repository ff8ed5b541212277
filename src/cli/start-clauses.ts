import { join } from 'node:path';
import { legalRows } from '../graph/legal-rows.ts';
import { writeNew } from '../host/write-files.ts';
import type { Analysis } from '../pipeline.ts';
import { clauseProposals, proposalText } from '../records/clause-proposal.ts';
import { nearestName } from '../records/nearest-name.ts';
import { openClauses } from '../regulation/open-clauses.ts';
import type { Terminal } from './command.ts';
import { Refusal } from './refusal.ts';

/**
 * Writes legal requirements for all clauses of a table that the technical file does not answer yet: one file for each
 * clause that stands highest, its sub-clauses as rows. Nothing is decided in them, and no file that exists is touched.
 */
export const startClauses = (
  key: string,
  { graph, clauseTables, project }: Analysis,
  { folder, shown, place }: { readonly folder: string; readonly shown: string; readonly place: string },
  terminal: Terminal,
): number => {
  const table = clauseTables.inUse(key);
  if (!table) {
    const near = nearestName(key, clauseTables.keys);
    throw new Refusal(
      `there is no clause table "${key}"`,
      near ? `Did you mean "${near}"?` : `Use one of: ${clauseTables.keys.join(', ')}.`,
    );
  }
  const answered = new Map(
    legalRows(graph)
      .filter((row) => row.table === key)
      .map((row) => [row.clause, row.applicable !== false]),
  );
  const open = table.rows
    .filter((row) => row.parent === undefined)
    .flatMap((head) => openClauses(table, head, answered));
  const files = clauseProposals(table, open).map((proposal) => ({
    proposal,
    path: place === '' ? `${proposal.id}.md` : `${place}/${proposal.id}.md`,
  }));
  const twin = files.find(({ proposal }) => graph.record(proposal.id));
  if (twin)
    throw new Refusal(
      `clause ${twin.proposal.head.clause} would be answered in ${twin.proposal.id}, which ${graph.record(twin.proposal.id)?.file} holds already`,
      'Add the clause there, or give that record another id. Nothing was written.',
    );
  for (const { proposal, path } of files)
    if (!writeNew(join(folder, path), proposalText(proposal, table)))
      throw new Refusal(`the file ${path} exists already`, 'Move it away, or add the clauses in it.');
  if (files.length === 0) {
    terminal.out(`Every clause of ${key} of ${table.edition} is answered; nothing was written.\n`);
    return 0;
  }
  const isNamed = (project.fields.clause_tables ?? []).some((each) => each.table === key);
  const where = shown === '.' ? place : [shown, place].filter((part) => part !== '').join('/');
  terminal.out(
    `Wrote ${files.length} ${files.length === 1 ? 'file' : 'files'} with ${open.length} ${open.length === 1 ? 'clause' : 'clauses'} of ${key} of ${table.edition} to ${where === '' ? '.' : where}:\n  ${files.map(({ proposal }) => proposal.id).join(', ')}\n` +
      'Every row reads "to decide". Read each clause in the text in force and decide; "plinth check" counts what is left.\n' +
      (isNamed
        ? ''
        : `Name the edition in plinth.yaml, so that gaps are found:\n  clause_tables:\n    - { table: ${key}, edition: ${table.edition} }\n`),
  );
  return 0;
};

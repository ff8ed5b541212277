import { type EditionEffect, editionEffect } from '../../change/edition-effect.ts';
import type { Finding } from '../../findings/finding.ts';
import { readOwnVersion } from '../../host/own-files.ts';
import { analyse } from '../../pipeline.ts';
import { nearestName } from '../../records/nearest-name.ts';
import type { ClauseTable, ClauseTables } from '../../regulation/clause-tables.ts';
import {
  clauseTablesDocument,
  editionsDocument,
  type TableUse,
  tableUses,
} from '../../views/clause-tables-document.ts';
import type { CommandRun } from '../command.ts';
import { deliverDocument, deliverJson } from '../deliver-document.ts';
import { createHouseStyles, type HouseStyles } from '../house-styles.ts';
import { Refusal } from '../refusal.ts';
import { findFolder, readInputs } from '../technical-file.ts';

/** Two editions of a table: those that are named, else the one in use and the latest of the others. */
const editionsToCompare = (
  tables: ClauseTables,
  key: string,
  refused: string,
  named: { readonly from?: string | undefined; readonly to?: string | undefined },
): readonly [ClauseTable, ClauseTable] => {
  const editions = tables.editionsOf(key);
  if (editions.length === 0) {
    const near = nearestName(key, tables.keys);
    throw new Refusal(
      `there is no clause table "${key}"`,
      (near ? `Did you mean "${near}"?` : `Use one of: ${tables.keys.join(', ')}.`) + refused,
    );
  }
  const known = editions.map((each) => each.edition);
  const wanted = (option: 'from' | 'to', edition: string): ClauseTable => {
    const found = tables.edition(key, edition);
    if (found) return found;
    throw new Refusal(
      `--${option} is ${edition}, and ${key} has the ${known.length === 1 ? 'edition' : 'editions'} ${known.join(', ')}`,
      `Name one of these, or put a table of that edition into clause-tables/ of the technical file.${refused}`,
    );
  };
  const from = named.from === undefined ? tables.inUse(key) : wanted('from', named.from);
  const to =
    named.to === undefined ? [...editions].reverse().find((each) => each !== from) : wanted('to', named.to);
  if (!from || !to)
    throw new Refusal(
      `${key} is at hand in one edition only, ${known.join(', ')}`,
      `Put a table of another edition into clause-tables/ of the technical file; "plinth explain clause-tables" has an example.${refused}`,
    );
  if (from === to)
    throw new Refusal(`both editions are ${from.edition}`, `Name two of: ${known.join(', ')}.`);
  return [from, to];
};

/** Tables of the technical file that cannot be used, each with its first fault, as the end of a hint. */
const refusedTables = (findings: readonly Finding[]): string => {
  const first = new Map<string, Finding>();
  for (const finding of findings)
    if (finding.code === 'clause-table-unusable' && !first.has(finding.place.file))
      first.set(finding.place.file, finding);
  return [...first.values()]
    .map(({ place, message, hint }) =>
      ` ${place.file}:${place.line} was refused: ${message}. ${hint ?? ''}`.trimEnd(),
    )
    .join('');
};

const tableData = ({ table, isInUse, isNamed, answered, fromMemory }: TableUse): object => ({
  table: table.key,
  title: table.title,
  source: table.source,
  edition: table.edition,
  rows: table.rows.length,
  fromMemory,
  inUse: isInUse,
  named: isNamed,
  answered,
  ...(table.file === undefined ? {} : { file: table.file }),
});

const effectData = ({ before, after, same, effects, requirements }: EditionEffect): object => ({
  table: before.key,
  from: before.edition,
  to: after.edition,
  same,
  requirements,
  clauses: effects.map((each) => ({
    clause: each.after?.clause ?? each.before?.clause,
    change: each.change,
    ...(each.before ? { before: each.before.title } : {}),
    ...(each.after ? { after: each.after.title } : {}),
    ...(each.answer ? { requirement: each.answer.record.id, applicable: each.answer.applicable } : {}),
    records: each.records,
  })),
});

/** Version of the JSON form is in its field `version`. A field may be added; none changes its meaning without a new number. */
export const run: CommandRun = async (request, terminal) => {
  const folder = findFolder(request.options['in'], terminal);
  const analysis = analyse(readInputs(folder, request, terminal), []);
  const { graph, clauseTables, project, findings } = analysis;
  const houses = (): HouseStyles => createHouseStyles(folder.path, analysis);
  const about = { graph, toolVersion: readOwnVersion() };
  const isJson = request.options['format'] === 'json';
  const key = request.argument;
  const { from, to } = request.options;
  if (key === undefined) {
    if (from !== undefined || to !== undefined)
      throw new Refusal(
        'two editions are compared for one table',
        'Name the table: plinth clauses eu-mdr-annex-1 --to EDITION',
      );
    const uses = tableUses(clauseTables, graph, project.fields.clause_tables ?? []);
    if (isJson)
      deliverJson({ form: 'plinth-clauses', version: 1, tables: uses.map(tableData) }, request, terminal);
    else await deliverDocument(clauseTablesDocument(uses, about), request, terminal, houses);
    return 0;
  }
  const effect = editionEffect(
    ...editionsToCompare(clauseTables, key, refusedTables(findings), { from, to }),
    graph,
  );
  if (isJson)
    deliverJson({ form: 'plinth-clauses', version: 1, editions: effectData(effect) }, request, terminal);
  else await deliverDocument(editionsDocument(effect, about), request, terminal, houses);
  return 0;
};

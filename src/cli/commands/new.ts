import { join } from 'node:path';
import { requiredRoles } from '../../graph/approvals.ts';
import { writeNew } from '../../host/write-files.ts';
import { analyse } from '../../pipeline.ts';
import { nearestName } from '../../records/nearest-name.ts';
import { folderOf, nextId, recordTemplate } from '../../records/template.ts';
import type { CommandRun } from '../command.ts';
import { Refusal } from '../refusal.ts';
import { startClauses } from '../start-clauses.ts';
import { findFolder, readInputs } from '../technical-file.ts';

export const run: CommandRun = async (request, terminal) => {
  const folder = findFolder(request.options['in'], terminal);
  const analysis = analyse(readInputs(folder, request, terminal), []);
  const { graph, schemas, project } = analysis;
  terminal.progress('');
  const name = request.argument ?? '';
  const type =
    schemas.types.get(name) ?? [...schemas.types.values()].find((each) => each.prefix === name.toUpperCase());
  if (!type) {
    const names = [...schemas.types.keys()];
    const near = nearestName(name, names);
    throw new Refusal(
      `unknown record type "${name}"`,
      near ? `Did you mean "${near}"?` : `Use one of: ${names.join(', ')}.`,
    );
  }
  const siblings = [...graph.records.values()]
    .filter((record) => record.type === type.type)
    .map((record) => record.file.split('/').slice(0, -1).join('/'));
  const place = siblings.at(-1) ?? folderOf(type);
  const table = request.options['table'];
  if (table !== undefined) {
    if (
      type.type !== 'legal-requirement' ||
      request.options['id'] !== undefined ||
      request.options['title'] !== undefined
    )
      throw new Refusal(
        '--table writes legal requirements for a whole table',
        `Use it alone: plinth new legal-requirement --table ${table}`,
      );
    return startClauses(table, analysis, { folder: folder.path, shown: folder.shown, place }, terminal);
  }
  const id = request.options['id'] ?? nextId(type, graph.records.keys());
  const twin = graph.record(id);
  if (twin)
    throw new Refusal(
      `the id ${id} is already taken by ${twin.file}`,
      `Leave --id out for the next free id, ${nextId(type, graph.records.keys())}.`,
    );
  if (!id.startsWith(`${type.prefix}-`) || !/^[A-Z]{2,5}-[A-Za-z0-9][A-Za-z0-9.-]{0,31}$/.test(id))
    throw new Refusal(`"${id}" is no id for a ${type.type}`, `Ids of this type look like ${type.prefix}-01.`);
  const path = place === '' ? `${id}.md` : `${place}/${id}.md`;
  if (!writeNew(join(folder.path, path), recordTemplate(type, id, request.options['title'] ?? '')))
    throw new Refusal(`the file ${path} exists already`, 'Choose another id with --id, or edit the file.');
  const shown = folder.shown === '.' ? path : `${folder.shown}/${path}`;
  const roles = requiredRoles(project.fields, type.type);
  terminal.out(
    `Wrote ${shown}\nFill in its fields, then run "plinth check".${roles.length > 0 ? `\nIt must be approved by: ${roles.join(', ')}.` : ''}\n`,
  );
  return 0;
};

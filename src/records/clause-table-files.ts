import type { Finding, Place } from '../findings/finding.ts';
import { clauseTableFaults } from '../regulation/clause-table-faults.ts';
import { type ClauseTable, shippedClauseTables } from '../regulation/clause-tables.ts';
import { ownClauseTable } from '../regulation/own-clause-table.ts';
import { decodeText } from './decode.ts';
import type { ClauseTableFields } from './fields.ts';
import { type ParsedYaml, parseYaml } from './front-matter.ts';
import { readingFinding } from './reading-findings.ts';
import { explainSchemaErrors } from './schema-messages.ts';
import type { SchemaSet } from './schema-set.ts';
import type { SourceFile } from './source-file.ts';

/** Reports one thing that keeps a table from being used. */
type Report = (place: Place, message: string, hint?: string) => void;

const folder = /^clause-tables\/[^/]+\.ya?ml$/i;

/**
 * Reads the clause tables that came with a technical file. They are untrusted: one with a fault is left out, and every
 * fault is a finding.
 */
export const readClauseTables = (
  files: readonly SourceFile[],
  schemas: SchemaSet,
): { readonly own: readonly ClauseTable[]; readonly findings: readonly Finding[] } => {
  const findings: Finding[] = [];
  const report: Report = (place, message, hint = 'Mend this line.') => {
    findings.push(
      readingFinding('clause-table-unusable', place, `the clause table cannot be used: ${message}`, { hint }),
    );
  };
  const own: ClauseTable[] = [];
  for (const file of files.filter((each) => folder.test(each.path))) {
    const yaml = yamlOf(file, report);
    if (!yaml || !isSound(yaml, file.path, schemas, report)) continue;
    const table = ownClauseTable(yaml.value as ClauseTableFields, file.path);
    const twin = [...shippedClauseTables, ...own].find(
      (each) => each.key === table.key && each.edition === table.edition,
    );
    const faults = clauseTableFaults(table);
    for (const { row, message } of faults)
      report(row === undefined ? topOf(file.path) : yaml.place(['rows', row]), message, 'Mend this row.');
    if (twin)
      report(
        yaml.place(['edition']),
        `${table.key} of ${table.edition} is already a table of ${twin.file ?? 'the tool'}`,
        'Correct the edition, or delete the file.',
      );
    else if (faults.length === 0) own.push(table);
  }
  return { own, findings };
};

const topOf = (file: string): Place => ({ file, line: 1, column: 1 });

const yamlOf = (file: SourceFile, report: Report): ParsedYaml | undefined => {
  const decoded = decodeText(file.bytes);
  if (!decoded.ok) {
    report(
      { file: file.path, line: decoded.line, column: decoded.column },
      `byte 0x${decoded.byte.toString(16)} is not UTF-8`,
      'Save the file as UTF-8.',
    );
    return undefined;
  }
  const yaml = parseYaml(file.path, decoded.text, 1);
  for (const problem of yaml.problems) report(problem.place, problem.message);
  return yaml.problems.length > 0 ? undefined : yaml;
};

const isSound = (yaml: ParsedYaml, file: string, { clauseTable }: SchemaSet, report: Report): boolean => {
  const value = yaml.value ?? {};
  if (clauseTable.validate(value)) return true;
  const errors = clauseTable.validate.errors ?? [];
  for (const fault of explainSchemaErrors(errors, value, clauseTable.fieldsAt, yaml.written))
    report(
      fault.path.length === 0 ? topOf(file) : yaml.place(fault.path, fault.atKey ? 'key' : 'value'),
      fault.message.replace('the front matter', 'the table'),
      fault.hint,
    );
  return false;
};

import { readFileSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { evidenceMethod, evidenceMethods } from '../../evidence/methods/index.ts';
import type { EvidenceMethod } from '../../evidence/methods/method.ts';
import type { EvidenceResult } from '../../evidence/result.ts';
import type { Finding } from '../../findings/finding.ts';
import { readOwnSchemas, readOwnVersion } from '../../host/own-files.ts';
import { systemMessage } from '../../host/read-folder.ts';
import { nearestName } from '../../records/nearest-name.ts';
import { largestFileBytes } from '../../records/source-file.ts';
import { type DataColumn, type DataTable, readNumber, readTable } from '../../records/table.ts';
import { isKnownUnit } from '../../records/units.ts';
import { analysisDocument, capabilityValues, noRecord } from '../../views/analysis-document.ts';
import type { CommandRun, Request, Terminal } from '../command.ts';
import { deliverDocument, deliverJson } from '../deliver-document.ts';
import { limitOptions, numberOption, shareOption } from '../number-options.ts';
import { type QuickLook, quickLook, readingsPath } from '../quick-look.ts';
import { Refusal } from '../refusal.ts';

/** Findings printed before the rest is counted. */
const mostFindings = 5;

const readFile = (asked: string, terminal: Terminal): Uint8Array => {
  const path = resolve(terminal.folder, asked);
  try {
    const stat = statSync(path);
    if (!stat.isFile()) throw new Refusal(`"${asked}" is not a file`, 'Name the CSV file with the readings.');
    if (stat.size > largestFileBytes)
      throw new Refusal(
        `"${asked}" is larger than ${largestFileBytes / 1024 / 1024} MB`,
        'Name a file that holds the readings only.',
      );
    return readFileSync(path);
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(`"${asked}" cannot be read: ${systemMessage(error)}`, 'Correct the name of the file.');
  }
};

/** Reads the file once to choose the column; the evaluation reads it again as it reads every raw-data file. */
const tableOf = (bytes: Uint8Array, file: string): DataTable => {
  const outcome = readTable(file, bytes);
  if ('table' in outcome) {
    if (outcome.table.rows > 0) return outcome.table;
    throw new Refusal(`${file} holds a heading and no readings`, 'Enter one row for each reading.');
  }
  const { place, message, hint } = outcome.problem;
  throw new Refusal(`${file}:${place.line}:${place.column}: ${message}`, hint ?? 'Mend the file.');
};

const columnNamed = (table: DataTable, name: string, option: string): DataColumn => {
  const found = table.columns.find((column) => column.name === name);
  if (found) return found;
  const names = table.columns.map((column) => column.name);
  const near = nearestName(name, names);
  throw new Refusal(
    `${table.file} has no column "${name}", as --${option} asks for`,
    near ? `Did you mean "${near}"?` : `Use one of: ${names.join(', ')}.`,
  );
};

/** Whether most cells that are not blank hold numbers: a single wrong one shall be told by its place. */
const isNumeric = ({ cells }: DataColumn, decimal: '.' | ','): boolean => {
  const filled = cells.filter(({ text }) => text.trim() !== '');
  const numbers = filled.filter(({ text }) => !['wrong', 'blank'].includes(readNumber(text, decimal).kind));
  return numbers.length * 2 > filled.length;
};

/** Headings of columns that number or name what was measured. */
const namesSomething =
  /^(?:units?|ids?|no|nr|number|index|row|samples?|parts?|specimens?|serial(?: number)?|lots?|batch|participants?|#)\.?$/i;

const columnOf = (table: DataTable, request: Request, decimal: '.' | ','): DataColumn => {
  const asked = request.options['column'];
  if (asked !== undefined) return columnNamed(table, asked, 'column');
  const taken = ['unit-id', 'lot', 'group'].map((name) => request.options[name]);
  const numeric = table.columns.filter(
    (column) => !taken.includes(column.name) && isNumeric(column, decimal),
  );
  const [only] = numeric;
  // A number that names a unit is no reading, and a heading with a unit of measure tells where the readings are.
  const isName = only !== undefined && namesSomething.test(only.name);
  const isBeside =
    table.columns.some((column) => column !== only && column.unit !== undefined) && only?.unit === undefined;
  if (only && numeric.length === 1 && (isName || isBeside))
    throw new Refusal(
      `the only column of numbers in ${table.file} is "${only.name}", which does not look like readings`,
      'Say which column holds the readings with --column; for decimal commas add --decimal ",".',
    );
  if (only && numeric.length === 1) return only;
  const names = table.columns.map(({ name }) => name).join(', ');
  throw new Refusal(
    numeric.length === 0
      ? `${table.file} has no column of numbers; its columns are: ${names}`
      : `${table.file} has ${numeric.length} columns of numbers: ${numeric.map(({ name }) => name).join(', ')}`,
    numeric.length === 0
      ? `Name the column with --column; for decimal commas add --decimal ",".`
      : 'Name the one to analyse with --column.',
  );
};

const methodOf = (request: Request): EvidenceMethod => {
  const name = request.options['method'] ?? '';
  const method = evidenceMethod(name);
  if (method) return method;
  const names = evidenceMethods.map((each) => each.name);
  const near = nearestName(name, names);
  throw new Refusal(
    `there is no evidence method "${name}"`,
    near ? `Did you mean "${near}"?` : `Use one of: ${names.join(', ')}.`,
  );
};

/** Methods that judge units one by one, so that words such as pass and fail do for readings. */
const countingMethods = ['attribute', 'success-run', 'inspection-checklist', 'all-units'];

/** The fields of a plan that the options give, as they were written, and the methods' needs held against them. */
const samplingOf = (request: Request, method: EvidenceMethod): Readonly<Record<string, string>> => {
  const fields: Record<string, string> = {};
  const take = (field: string, option: string, isSound: boolean, wanted: string): void => {
    const written = request.options[option];
    if (written === undefined) return;
    if (!isSound) throw new Refusal(`--${option} is ${written}, expected ${wanted}`, 'Correct the number.');
    fields[field] = written;
  };
  shareOption(request, 'confidence');
  shareOption(request, 'reliability');
  take('confidence', 'confidence', true, '');
  take('reliability', 'reliability', true, '');
  const accept = numberOption(request, 'accept');
  take('accept', 'accept', Number.isInteger(accept) && (accept ?? -1) >= 0, 'a whole number of at least 0');
  const index = numberOption(request, 'capability-index');
  take('capability_index', 'capability-index', (index ?? 0) > 0, 'a number above 0');
  const power = numberOption(request, 'power');
  take('power', 'power', Math.abs(power ?? 9) <= 5, 'a number from -5 to 5');
  const compare = request.options['compare'];
  if (compare !== undefined) {
    const comma = compare.indexOf(',');
    const [from, to] = [compare.slice(0, comma).trim(), compare.slice(comma + 1).trim()];
    if (comma < 0 || from === '' || to === '')
      throw new Refusal(
        `--compare is "${compare}", expected two groups`,
        'For example: --compare fresh,aged',
      );
    fields['compare'] = `{ from: ${JSON.stringify(from)}, to: ${JSON.stringify(to)} }`;
  }
  const missing = method.needs.filter((field) => fields[field] === undefined);
  if (missing.length > 0)
    throw new Refusal(
      `the method ${method.name} needs ${missing.map((field) => `--${field.replaceAll('_', '-')}`).join(' and ')}`,
      `For example: --confidence 0.95 --reliability 0.95. See "plinth explain ${method.name}".`,
    );
  return fields;
};

const lookOf = (request: Request, table: DataTable, bytes: Uint8Array): QuickLook => {
  const method = methodOf(request);
  const sampling = samplingOf(request, method);
  const limits = limitOptions(request);
  if (limits.lower === undefined && limits.upper === undefined && !countingMethods.includes(method.name))
    throw new Refusal(
      'no limit was given to hold the readings against',
      'Give --lower, --upper, or both, in the unit of the column or in that of --unit.',
    );
  const decimal = request.options['decimal'] === ',' ? ',' : '.';
  const column = columnOf(table, request, decimal);
  const unit = request.options['unit'];
  if (unit !== undefined && !isKnownUnit(unit))
    throw new Refusal(`unknown unit "${unit}"`, 'Write it as a UCUM code, for example N or mm.');
  const role = (option: string): string | undefined => {
    const name = request.options[option];
    return name === undefined ? undefined : columnNamed(table, name, option).name;
  };
  const [unitId, lot, group] = ['unit-id', 'lot', 'group'].map(role);
  const [lower, upper] = [request.options['lower'], request.options['upper']];
  const limitUnit = unit ?? column.unit;
  const perUnit = request.options['per-unit'];
  return {
    bytes,
    column: column.name,
    ...(limitUnit === undefined || limitUnit === '' ? {} : { unit: limitUnit }),
    ...(unit !== undefined && column.unit === undefined ? { columnUnit: unit } : {}),
    ...(lower === undefined ? {} : { lower }),
    ...(upper === undefined ? {} : { upper }),
    ...(perUnit === undefined ? {} : { perUnit }),
    method: method.name,
    sampling,
    data: {
      ...(unitId === undefined ? {} : { unit_id: unitId }),
      ...(lot === undefined ? {} : { lot }),
      ...(group === undefined ? {} : { group }),
      decimal,
    },
  };
};

/** What is wrong with cells, by file, line and column. */
const refuseFindings = (findings: readonly Finding[], file: string): void => {
  const [first] = findings;
  if (!first) return;
  const lines = findings
    .slice(0, mostFindings)
    .map(({ place, message }) =>
      place.file === readingsPath ? `${file}:${place.line}:${place.column}: ${message}` : message,
    );
  const more = findings.length - lines.length;
  const hint = first.hint ?? 'Mend the file.';
  throw new Refusal(
    `${lines.join('\n        ')}${more > 0 ? `\n        and ${more} more` : ''}`,
    /exclude the unit/.test(hint)
      ? 'Correct the cell: a quick look leaves no reading out.'
      : hint.replace('"decimal" under "data"', '--decimal'),
  );
};

const data = (look: QuickLook, file: string, result: EvidenceResult, capability?: EvidenceResult): object => {
  const [evidence] = result.characteristics;
  const values = capabilityValues(capability);
  return {
    form: 'plinth-analysis',
    version: 1,
    note: noRecord,
    file,
    sha256: result.dataDigest,
    column: look.column,
    method: result.method,
    basis: result.basis,
    plan: look.sampling,
    unitCount: result.unitCount,
    lots: result.lots,
    verdict: result.verdict,
    reason: result.reason,
    ...(evidence?.remedy === undefined ? {} : { remedy: evidence.remedy }),
    limits: evidence?.limits,
    // JSON has no word for what is beyond all numbers.
    values: (evidence?.values ?? []).filter(({ value }) => Number.isFinite(value)),
    assumptions: evidence?.assumptions ?? [],
    readings: evidence?.readings ?? [],
    ...(evidence?.beyond ? { beyond: evidence.beyond.map((side) => side ?? 'measured') } : {}),
    ...(values.length > 0 ? { capability: values.filter(({ value }) => Number.isFinite(value)) } : {}),
  };
};

/** Version of the JSON form is in its field `version`. A field may be added; none changes its meaning without a new number. */
export const run: CommandRun = async (request, terminal) => {
  const file = request.argument ?? '';
  const bytes = readFile(file, terminal);
  const look = lookOf(request, tableOf(bytes, file), bytes);
  const { graph, result, capability, findings } = quickLook(look, readOwnSchemas());
  if (!result) {
    refuseFindings(findings, file);
    throw new Error('the readings were not evaluated');
  }
  refuseFindings(result.findings, file);
  if (request.options['format'] === 'json')
    deliverJson(data(look, file, result, capability), request, terminal);
  else
    await deliverDocument(
      analysisDocument({
        result,
        ...(capability ? { capability } : {}),
        graph,
        file,
        column: look.column,
        plan: look.sampling,
        ...(look.data.unit_id === undefined ? {} : { unitColumn: look.data.unit_id }),
        figures: request.options['format'] === 'text' ? 'characters' : 'drawings',
        toolVersion: readOwnVersion(),
      }),
      request,
      terminal,
    );
  return result.verdict === 'pass' ? 0 : 1;
};

import type { Finding } from '../findings/finding.ts';
import { fileDigest } from '../graph/digest.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { readingFinding } from '../records/reading-findings.ts';
import { placeOf, type RecordOf, type TechnicalRecord } from '../records/record.ts';
import type { SourceFile } from '../records/source-file.ts';
import { type DataTable, readTable } from '../records/table.ts';
import type { CalculationOutcome } from './calculations/calculation.ts';
import { calculations } from './calculations/index.ts';
import { evidenceFinding } from './evidence-findings.ts';
import { writtenBounds } from './limit-words.ts';
import { evidenceMethod, evidenceMethods } from './methods/index.ts';
import { type DataRecord, type Rows, readingsOf, rowsOf } from './readings.ts';
import {
  type AcceptanceLimits,
  type CharacteristicEvidence,
  combineVerdicts,
  type EvidenceResult,
  type TaskOutcomes,
} from './result.ts';
import { countedThings } from './sample-plan.ts';
import { studies } from './studies/index.ts';

/** Raw-data files by path from the root of the technical file. */
export type DataFiles = ReadonlyMap<string, SourceFile>;

type Acceptance = RecordOf<'verification-protocol'>['fields']['acceptance'];

/** Path of a raw-data file from the root; undefined where it leads out of the root. */
export const resolveDataPath = (record: TechnicalRecord, file: string): string | undefined => {
  if (file.startsWith('/') || /^[A-Za-z]:/.test(file) || file.includes('\\') || file.includes('\0'))
    return undefined;
  const parts = record.file.split('/').slice(0, -1);
  for (const part of file.split('/')) {
    if (part === '' || part === '.') continue;
    if (part === '..') {
      if (parts.length === 0) return undefined;
      parts.pop();
    } else parts.push(part);
  }
  return parts.join('/');
};

/** Verdicts of every record that carries data or a calculation, in order of id. */
export const evaluateEvidence = (
  graph: TraceGraph,
  files: DataFiles,
): ReadonlyMap<string, EvidenceResult> => {
  const results = new Map<string, EvidenceResult>();
  for (const record of graph.records.values()) {
    const result = evaluateOrRefuse(record, graph, files);
    if (result) results.set(record.id, result);
  }
  return results;
};

/** The evaluation, or `undecided` where figures of the record are beyond what a formula allows. */
const evaluateOrRefuse = (
  record: TechnicalRecord,
  graph: TraceGraph,
  files: DataFiles,
): EvidenceResult | undefined => {
  try {
    return evaluateRecord(record, graph, files);
  } catch (error) {
    // The statistics refuse arguments out of range by this error; nothing else is caught.
    if (!(error instanceof RangeError)) throw error;
    return {
      record: record.id,
      method: '',
      basis: '',
      characteristics: [],
      verdict: 'undecided',
      reason: `the figures are out of range: ${error.message}`,
      unitCount: 0,
      excludedUnits: [],
      lots: [],
      findings: [
        evidenceFinding(
          'method-inputs-missing',
          placeOf(record),
          `${record.id} cannot be evaluated: ${error.message}`,
          [record.id],
          'Correct the figures of the record or its protocol.',
        ),
      ],
    };
  }
};

interface KnownResult {
  readonly protocol: TechnicalRecord;
  readonly bytes: Uint8Array | undefined;
  readonly result: EvidenceResult | undefined;
}
const knownResults = new WeakMap<TechnicalRecord, KnownResult>();

/** A record, its protocol and its raw data that are the same objects as before give the same result: it is computed once. */
const onceFor = (
  record: TechnicalRecord,
  protocol: TechnicalRecord,
  file: string,
  files: DataFiles,
  compute: () => EvidenceResult | undefined,
): EvidenceResult | undefined => {
  const path = resolveDataPath(record, file);
  const bytes = path === undefined ? undefined : files.get(path)?.bytes;
  const known = knownResults.get(record);
  if (known && known.protocol === protocol && known.bytes === bytes) return known.result;
  const result = compute();
  knownResults.set(record, { protocol, bytes, result });
  return result;
};

const evaluateRecord = (
  record: TechnicalRecord,
  graph: TraceGraph,
  files: DataFiles,
): EvidenceResult | undefined => {
  const { id } = record;
  const verification = graph.recordOf('verification-record', id);
  if (verification) {
    const protocol = graph.recordOf('verification-protocol', verification.fields.reports);
    return protocol
      ? onceFor(verification, protocol, verification.fields.data.file, files, () =>
          evaluateData(verification, protocol, files),
        )
      : undefined;
  }
  const validation = graph.recordOf('validation-record', id);
  if (validation) {
    const protocol = graph.recordOf('validation-protocol', validation.fields.reports);
    return protocol
      ? onceFor(validation, protocol, validation.fields.data.file, files, () =>
          evaluateData(validation, protocol, files),
        )
      : undefined;
  }
  const analysis = graph.recordOf('analysis', id);
  if (analysis) return evaluateCalculation(analysis, graph, files);
  const testMethod = graph.recordOf('test-method', id);
  return testMethod?.fields.study
    ? onceFor(testMethod, testMethod, testMethod.fields.study.file, files, () =>
        evaluateStudy(testMethod, files),
      )
    : undefined;
};

interface Loaded {
  readonly table?: DataTable;
  readonly path?: string;
  readonly digest?: string;
  readonly findings: readonly Finding[];
}

const load = (
  record: TechnicalRecord,
  file: string,
  files: DataFiles,
  fieldPath: readonly string[],
): Loaded => {
  const path = resolveDataPath(record, file);
  const source = path === undefined ? undefined : files.get(path);
  if (path === undefined || !source) {
    const message =
      path === undefined
        ? `the path "${file}" leads out of the technical file`
        : `the raw-data file ${path} is missing`;
    return {
      findings: [
        evidenceFinding(
          'data-file-missing',
          placeOf(record, ...fieldPath),
          message,
          [record.id],
          'Put the file in place, or correct the path: it starts at the folder of the record.',
        ),
      ],
    };
  }
  const digest = fileDigest(source.bytes);
  const outcome = readTable(path, source.bytes);
  if ('problem' in outcome) {
    const { code, place, message, hint } = outcome.problem;
    return {
      path,
      digest,
      findings: [readingFinding(code, place, message, { records: [record.id], ...(hint ? { hint } : {}) })],
    };
  }
  return { table: outcome.table, path, digest, findings: [] };
};

/** Limits of a record's acceptance, with their written form. */
const limitsOf = (owner: TechnicalRecord, acceptance: Acceptance): readonly AcceptanceLimits[] =>
  acceptance.map((entry, index) => ({
    characteristic: entry.characteristic,
    unit: entry.unit ?? '1',
    ...(entry.lower === undefined ? {} : { lower: entry.lower }),
    ...(entry.upper === undefined ? {} : { upper: entry.upper }),
    ...writtenBounds(owner, ['acceptance', index]),
    ...(entry.criterion === undefined ? {} : { criterion: entry.criterion }),
  }));

const undecidedFor = (limits: AcceptanceLimits, reason: string): CharacteristicEvidence => ({
  limits,
  verdict: 'undecided',
  reason,
  sampleSize: 0,
  values: [],
  assumptions: [],
  readings: [],
});

const firstReason = (characteristics: readonly CharacteristicEvidence[], verdict: string): string => {
  const deciding = characteristics.filter((each) => each.verdict === verdict);
  const say = (each: CharacteristicEvidence): string =>
    characteristics.length > 1 ? `${each.limits.characteristic}: ${each.reason}` : each.reason;
  return deciding.map(say).join('; ');
};

const evaluateData = (
  record: DataRecord,
  protocol: RecordOf<'verification-protocol'> | RecordOf<'validation-protocol'>,
  files: DataFiles,
): EvidenceResult => {
  const { acceptance, sampling } = protocol.fields;
  const method = evidenceMethod(sampling.kind);
  const loaded = load(record, record.fields.data.file, files, ['data', 'file']);
  const findings: Finding[] = [...loaded.findings];
  const base = {
    record: record.id,
    protocol: protocol.id,
    method: sampling.kind,
    basis: method?.basis ?? '',
    ...(sampling.size === undefined ? {} : { plannedSize: sampling.size }),
    ...(loaded.path ? { dataFile: loaded.path } : {}),
    ...(loaded.digest ? { dataDigest: loaded.digest } : {}),
  };
  const allLimits = limitsOf(protocol, acceptance);
  const stop = (reason: string): EvidenceResult => ({
    ...base,
    characteristics: allLimits.map((limits) => undecidedFor(limits, reason)),
    verdict: 'undecided',
    reason,
    unitCount: 0,
    excludedUnits: [],
    lots: [],
    findings,
  });
  if (!method) {
    findings.push(
      evidenceFinding(
        'method-unknown',
        placeOf(record, 'reports'),
        `${protocol.id} names the unknown method "${sampling.kind}"`,
        [record.id],
        `Use one of: ${evidenceMethods.map((each) => each.name).join(', ')}.`,
      ),
    );
    return stop(`the method "${sampling.kind}" is unknown`);
  }
  const missing = method.needs.filter((field) => sampling[field] === undefined);
  if (missing.length > 0) {
    findings.push(
      evidenceFinding(
        'method-inputs-missing',
        placeOf(record, 'reports'),
        `${protocol.id} gives no ${missing.join(', ')} under sampling, which ${method.name} needs`,
        [record.id],
        `Add ${missing.join(', ')} to ${protocol.id}.`,
      ),
    );
    return stop(`the protocol gives no ${missing.join(', ')}`);
  }
  if (!loaded.table) return stop('the raw data cannot be read');
  const { table } = loaded;
  const rows = rowsOf(record, table);
  findings.push(...rows.findings);
  const characteristics = allLimits.map((limits, index) => {
    const readings = readingsOf(record, table, rows, limits);
    findings.push(...readings.findings);
    if (readings.findings.length > 0) return undecidedFor(limits, 'the raw data have gaps or errors');
    return method.evaluate({
      limits,
      sampling,
      readings,
      ...(acceptance[index]?.per_unit ? { perUnit: acceptance[index].per_unit } : {}),
    });
  });
  const units = [...new Set(rows.kept.map(rows.unitOf))];
  const found = countedThings(method.name) !== 'units' ? table.rows : units.length + rows.excluded.length;
  // Studies with users plan by group: a check of its own holds the groups against the plan.
  const isShort =
    record.type === 'verification-record' && sampling.size !== undefined && found < sampling.size;
  const gap =
    rows.findings.length > 0
      ? 'the raw data have gaps or errors'
      : isShort
        ? `the protocol plans ${sampling.size}, the raw data hold ${found}; nothing says where the others went`
        : countedThings(method.name) === 'units' && record.type === 'verification-record'
          ? unevenUnits(rows)
          : undefined;
  const combined = combineVerdicts(characteristics.map((each) => each.verdict));
  const verdict = combined === 'pass' && gap !== undefined ? 'undecided' : combined;
  return {
    ...base,
    characteristics,
    verdict,
    reason: firstReason(characteristics, verdict) || (gap ?? ''),
    unitCount: units.length,
    excludedUnits: rows.excluded,
    lots: [...new Set(rows.kept.map(rows.lotOf))].filter(
      (lot): lot is string => lot !== undefined && lot !== '',
    ),
    ...(protocol.type === 'validation-protocol'
      ? participantsOf(record, table, rows.kept, rows.unitOf, protocol)
      : {}),
    findings,
  };
};

/** Where units have several rows each: which unit has another number of rows than the first one, in words. */
const unevenUnits = ({ kept, unitOf }: Rows): string | undefined => {
  const counts = new Map<string, number>();
  for (const row of kept) counts.set(unitOf(row), (counts.get(unitOf(row)) ?? 0) + 1);
  const [first, ...others] = counts;
  const odd = others.find(([, count]) => count !== first?.[1]);
  if (!first || !odd) return undefined;
  return `${first[0]} has ${first[1]} ${first[1] === 1 ? 'row' : 'rows'} of readings, ${odd[0]} has ${odd[1]}; nothing says why`;
};

const participantsOf = (
  record: DataRecord,
  table: DataTable,
  kept: readonly number[],
  unitOf: (row: number) => string,
  protocol: RecordOf<'validation-protocol'>,
): Pick<EvidenceResult, 'groups' | 'tasks'> => {
  const column = (name: string | undefined) =>
    name === undefined ? undefined : table.columns.find((each) => each.name === name);
  const groupColumn = column(record.fields.data.group);
  const members = new Map<string, Set<string>>();
  for (const row of kept) {
    const group = groupColumn?.cells[row]?.text;
    if (group) members.set(group, (members.get(group) ?? new Set()).add(unitOf(row)));
  }
  const tasks = new Map<string, TaskOutcomes>();
  for (const { task } of protocol.fields.tasks) {
    const cells = column(task)?.cells;
    if (!cells) continue;
    const outcomes = kept.map((row) => cells[row]?.text.toLowerCase() ?? '');
    const count = (word: string): number => outcomes.filter((outcome) => outcome === word).length;
    const known = {
      success: count('success'),
      difficulty: count('difficulty'),
      closeCall: count('close call'),
      useError: count('use error'),
    };
    const byParticipant = new Map<string, readonly string[]>();
    for (const [index, row] of kept.entries()) {
      const participant = unitOf(row);
      byParticipant.set(participant, [...(byParticipant.get(participant) ?? []), outcomes[index] ?? '']);
    }
    tasks.set(task, {
      ...known,
      other: outcomes.length - known.success - known.difficulty - known.closeCall - known.useError,
      byParticipant,
    });
  }
  return { groups: new Map([...members].map(([group, set]) => [group, set.size])), tasks };
};

/** An outcome, unless one of its values is beyond all numbers: a limit that overflows must not let everything pass. */
const finiteOnly = (outcome: CalculationOutcome): CalculationOutcome => {
  if (!outcome.ok) return outcome;
  const beyond = outcome.characteristics.flatMap((each) =>
    each.values.filter(({ value }) => !Number.isFinite(value)),
  );
  return beyond.length === 0
    ? outcome
    : {
        ok: false,
        problems: beyond.map(({ label }) => ({
          path: [],
          message: `the figures give no ${label} that can be computed with`,
        })),
      };
};

const evaluateCalculation = (
  analysis: RecordOf<'analysis'>,
  graph: TraceGraph,
  files: DataFiles,
): EvidenceResult => {
  const kind = analysis.fields.calculation.kind;
  const calculation = calculations.find((each) => each.name === kind);
  const limits = limitsOf(analysis, analysis.fields.acceptance ?? []);
  const { data } = analysis.fields;
  const loaded = data ? load(analysis, data.file, files, ['data', 'file']) : undefined;
  const base = {
    record: analysis.id,
    method: kind,
    basis: calculation?.basis ?? '',
    unitCount: loaded?.table?.rows ?? 1,
    excludedUnits: [],
    lots: [],
    ...(loaded?.path ? { dataFile: loaded.path } : {}),
    ...(loaded?.digest ? { dataDigest: loaded.digest } : {}),
  };
  if (!calculation) {
    const known = calculations.map((each) => each.name).join(', ');
    return {
      ...base,
      characteristics: [],
      verdict: 'undecided',
      reason: `the calculation "${kind}" is unknown`,
      findings: [
        evidenceFinding(
          'method-unknown',
          placeOf(analysis, 'calculation', 'kind'),
          `${analysis.id} names the unknown calculation "${kind}"`,
          [analysis.id],
          `Use one of: ${known}.`,
        ),
      ],
    };
  }
  if (loaded && !loaded.table)
    return {
      ...base,
      characteristics: [],
      verdict: 'undecided',
      reason: 'the raw data cannot be read',
      findings: loaded.findings,
    };
  const outcome = finiteOnly(
    calculation.calculate({
      analysis,
      graph,
      limits,
      ...(loaded?.table ? { table: loaded.table } : {}),
    }),
  );
  if (!outcome.ok)
    return {
      ...base,
      characteristics: [],
      verdict: 'undecided',
      reason: outcome.problems.map((problem) => problem.message).join('; '),
      findings: outcome.problems.map(({ path, message, cell }) =>
        cell && loaded?.path !== undefined
          ? evidenceFinding(
              cell.text === '' ? 'data-cell-blank' : 'data-cell-wrong',
              { file: loaded.path, line: cell.line, column: cell.column },
              message,
              [analysis.id],
              'Correct the cell, or leave the row out and say in the record why.',
            )
          : evidenceFinding(
              'method-inputs-missing',
              placeOf(analysis, 'calculation', ...path),
              `${analysis.id}: ${message}`,
              [analysis.id],
              'Add or correct the field.',
            ),
      ),
    };
  // A calculation has one result: whatever else the record accepts is not shown by it.
  const characteristics = [
    ...outcome.characteristics,
    ...limits
      .slice(1)
      .map((each) =>
        undecidedFor(each, `the calculation has one result and does not show ${each.characteristic}`),
      ),
  ];
  const verdict = combineVerdicts(characteristics.map((each) => each.verdict));
  return {
    ...base,
    characteristics,
    verdict,
    reason: firstReason(characteristics, verdict),
    findings: [],
  };
};

const evaluateStudy = (testMethod: RecordOf<'test-method'>, files: DataFiles): EvidenceResult | undefined => {
  const fields = testMethod.fields.study;
  if (!fields) return undefined;
  const study = studies.find((each) => each.name === fields.kind);
  const loaded = load(testMethod, fields.file, files, ['study', 'file']);
  const base = {
    record: testMethod.id,
    method: fields.kind,
    basis: study?.basis ?? '',
    characteristics: [] as readonly CharacteristicEvidence[],
    unitCount: loaded.table?.rows ?? 0,
    excludedUnits: [],
    lots: [],
    ...(loaded.path ? { dataFile: loaded.path } : {}),
    ...(loaded.digest ? { dataDigest: loaded.digest } : {}),
  };
  if (!study)
    return {
      ...base,
      verdict: 'undecided',
      reason: `the study "${fields.kind}" is unknown`,
      findings: [
        evidenceFinding(
          'method-unknown',
          placeOf(testMethod, 'study', 'kind'),
          `${testMethod.id} names the unknown study "${fields.kind}"`,
          [testMethod.id],
          `Use one of: ${studies.map((each) => each.name).join(', ')}.`,
        ),
      ],
    };
  if (!loaded.table)
    return {
      ...base,
      verdict: 'undecided',
      reason: 'the raw data cannot be read',
      findings: loaded.findings,
    };
  const outcome = study.evaluate({ testMethod, table: loaded.table });
  if (!outcome.ok) {
    const { cells = [], message } = outcome;
    const table = loaded.table.file;
    return {
      ...base,
      verdict: 'undecided',
      reason: message,
      findings:
        cells.length > 0
          ? cells.map(({ cell, message: fault, hint }) =>
              evidenceFinding(
                cell.text === '' ? 'data-cell-blank' : 'data-cell-wrong',
                { file: table, line: cell.line, column: cell.column },
                fault,
                [testMethod.id],
                hint,
              ),
            )
          : [
              evidenceFinding(
                'method-inputs-missing',
                placeOf(testMethod, 'study'),
                `${testMethod.id}: ${message}`,
                [testMethod.id],
                'Add or correct the column or the field.',
              ),
            ],
    };
  }
  const { characteristic } = outcome;
  return {
    ...base,
    characteristics: [characteristic],
    verdict: characteristic.verdict,
    reason: characteristic.reason,
    findings: [],
  };
};

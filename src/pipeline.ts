import { type Check, type CheckContext, type CheckReport, runChecks } from './checks/check.ts';
import { holdBack } from './checks/held-back.ts';
import { checks as allChecks } from './checks/index.ts';
import { markdownCodes } from './document/markdown-findings.ts';
import { withCriteriaInForce } from './evidence/criteria-in-force.ts';
import { evaluateEvidence } from './evidence/evaluate.ts';
import { evidenceCodes } from './evidence/evidence-findings.ts';
import { unjudgedRisks } from './evidence/residual-risk.ts';
import type { Explanation } from './findings/explanation.ts';
import type { Finding, Level } from './findings/finding.ts';
import { compareFindings } from './findings/order.ts';
import { waiverCodes } from './findings/waiver-idle.ts';
import { applyWaivers, type WaiverOutcome } from './findings/waivers.ts';
import type { Signatures } from './graph/approval-signatures.ts';
import { assessApprovals } from './graph/approvals.ts';
import { readPastContent } from './graph/past-content.ts';
import type { RecordHistories } from './graph/record-history.ts';
import { assessStanding, type Verdict } from './graph/standing.ts';
import { tightenLevels } from './graph/tighten-levels.ts';
import { buildGraph } from './graph/trace-graph.ts';
import { type UnreadFile, type UnreadRecord, unreadRecords } from './graph/unread-records.ts';
import { readClauseTables } from './records/clause-table-files.ts';
import { readRecords } from './records/read-records.ts';
import { readingCodes } from './records/reading-findings.ts';
import type { TechnicalRecord } from './records/record.ts';
import { readSchemas, type SchemaSet, type SchemaText } from './records/schema-set.ts';
import type { RefusedFile, SourceFile } from './records/source-file.ts';
import { gatherClauseTables } from './regulation/clause-tables.ts';
import { documentCodes } from './views/document-findings.ts';

/** All that the outside hands over: bytes, a date, a version. */
export interface Inputs {
  readonly files: readonly SourceFile[];
  readonly refused: readonly RefusedFile[];
  /** The tool's own schemas; those of the technical file are among `files`. */
  readonly schemas: readonly SchemaText[];
  /** Earlier states of records, for showing what changed since an approval. */
  readonly past?: readonly SourceFile[];
  /** States of records by commit, where a document asks for them. */
  readonly histories?: RecordHistories;
  /** How the approvals came into the file, where signed mode asks for it. */
  readonly signatures?: Signatures;
  /** ISO date from the command line; plinth.yaml comes second, `today` last. */
  readonly asOf?: string;
  readonly today: string;
  readonly toolVersion: string;
}

/** The technical file as understood: context for checks and views, and what was found. */
export interface Analysis extends CheckContext {
  readonly schemas: SchemaSet;
  readonly toolVersion: string;
  readonly histories?: RecordHistories;
  readonly waivers: WaiverOutcome;
  /** Findings that stand, in order of place. */
  readonly findings: readonly Finding[];
  /** Findings that may only follow from records which cannot be read, and are not among `findings`. */
  readonly heldBack: number;
  readonly unread: readonly UnreadRecord[];
  readonly reports: readonly CheckReport[];
  /** Records that do not meet their schema, which checks could not judge. */
  readonly unsound: number;
}

const levelsOf = (codes: Readonly<Record<string, Explanation>>) =>
  Object.entries(codes).map(([code, { level }]) => [code, level] as const);

/** Level of every finding code, whatever stage finds it. */
const findingLevels: ReadonlyMap<string, Level> = new Map([
  ...levelsOf(readingCodes),
  ...levelsOf(evidenceCodes),
  ...levelsOf(markdownCodes),
  ...levelsOf(documentCodes),
  ...levelsOf(waiverCodes),
  ...allChecks.map(({ code, level }) => [code, level] as const),
]);

const schemaFolder = /^schemas\/[^/]+\.schema\.json$/;

/** From bytes to findings: the whole of `check`, without touching the outside. */
export const analyse = (inputs: Inputs, checks: readonly Check[] = allChecks): Analysis => {
  const own = inputs.files
    .filter((file) => schemaFolder.test(file.path))
    .map((file) => ({ file: file.path, text: new TextDecoder().decode(file.bytes) }));
  const schemas = readSchemas(own.length === 0 ? inputs.schemas : [...inputs.schemas, ...own]);
  const { project: read, records, findings: reading } = readRecords(inputs.files, inputs.refused, schemas);
  const project = withCriteriaInForce(read, records);
  const graph = buildGraph(records, schemas.types);
  const files = new Map(inputs.files.map((file) => [file.path, file]));
  const tables = readClauseTables(inputs.files, schemas);
  const evidence = evaluateEvidence(graph, files);
  const approvals = assessApprovals(graph, project.fields);
  const verdict = (id: string): Verdict | undefined => evidence.get(id)?.verdict;
  const asOf = inputs.asOf ?? project.fields.as_of ?? inputs.today;
  const context: CheckContext = {
    project,
    graph,
    approvals,
    evidence,
    standing: assessStanding({ graph, approvals, verdict }),
    files,
    clauseTables: gatherClauseTables(tables.own, project.fields.clause_tables),
    ...(inputs.past ? { past: readPastContent(inputs.past, schemas) } : {}),
    ...(inputs.signatures ? { signatures: inputs.signatures } : {}),
    findingLevels,
    asOf,
  };
  const { findings: checked, reports } = runChecks(checks, context);
  const data = [...evidence.values()].flatMap((result) => result.findings);
  const waivers = applyWaivers(
    tightenLevels(
      [...reading, ...tables.findings, ...data, ...checked],
      project.fields.tighten,
      graph,
    ).toSorted(compareFindings),
    project.fields.waivers ?? [],
    asOf,
  );
  const unread = unreadRecords(graph, filesWithoutRecord(waivers.standing, records, files)).filter(
    ({ id, file }) =>
      // Where people have waived what is wrong with it, nothing else would tell of it.
      waivers.standing.some(
        (finding) =>
          Object.hasOwn(readingCodes, finding.code) &&
          (finding.records.includes(id) || finding.place.file === file),
      ),
  );
  const { standing, heldBack } = holdBack(waivers.standing, checks, graph, unread, project.unread);
  return {
    ...context,
    standing: assessStanding({
      graph,
      approvals,
      verdict,
      doubts: new Map([...unjudgedRisks(graph, project.fields), ...doubtsFrom(waivers.standing)]),
    }),
    schemas,
    toolVersion: inputs.toolVersion,
    ...(inputs.histories ? { histories: inputs.histories } : {}),
    waivers: { ...waivers, standing },
    findings: standing,
    heldBack,
    unread,
    reports,
    unsound: records.filter((record) => !record.sound).length,
  };
};

/** Markdown files with a finding in them, and with no record. */
const filesWithoutRecord = (
  findings: readonly Finding[],
  records: readonly TechnicalRecord[],
  files: ReadonlyMap<string, SourceFile>,
): readonly UnreadFile[] => {
  const read = new Set(records.map((record) => record.file));
  const paths = new Set(findings.map(({ place }) => place.file));
  return [...paths]
    .filter((path) => /\.md$/i.test(path) && !read.has(path))
    .map((path) => ({ path, text: new TextDecoder().decode(files.get(path)?.bytes) }));
};

/** The first error that stands on each record: what passed there cannot be relied on until it is resolved or waived. */
const doubtsFrom = (findings: readonly Finding[]): ReadonlyMap<string, string> => {
  const doubts = new Map<string, string>();
  for (const { level, code, records } of findings) {
    const [id] = records;
    if (level === 'error' && id !== undefined && !doubts.has(id))
      doubts.set(id, `an error stands on ${id}: ${code}`);
  }
  return doubts;
};

import { relative, sep } from 'node:path';
import { holdBack } from '../checks/held-back.ts';
import { checks as allChecks } from '../checks/index.ts';
import type { Finding, Level } from '../findings/finding.ts';
import { compareFindingSets } from '../findings/finding-changes.ts';
import { fingerprint } from '../findings/fingerprint.ts';
import { compareFindings, isAtLeast } from '../findings/order.ts';
import { idleWaiverFindings } from '../findings/waiver-idle.ts';
import { applyWaivers, type WaivedFinding } from '../findings/waivers.ts';
import { sha256Hex } from '../graph/digest.ts';
import { tightenLevels } from '../graph/tighten-levels.ts';
import { openRepository } from '../host/git.ts';
import type { Analysis } from '../pipeline.ts';
import { decodeText } from '../records/decode.ts';
import type { MachineReport } from '../writers/machine-report.ts';
import { writeReportJson } from '../writers/report-json/write-report-json.ts';
import { type ReportContent, writeReportText } from '../writers/report-text/write-report-text.ts';
import type { Terminal } from './command.ts';

const order = ['passed', 'planned', 'unplanned', 'in doubt', 'failed'];

/** What is new and what is gone since an earlier report. What was accepted and no longer is, is new; what has been accepted since is not gone. */
const changesSince = (
  before: ReportContent,
  findings: readonly Finding[],
  waived: readonly WaivedFinding[],
): Pick<ReportContent, 'newFindings' | 'goneFindings'> => {
  const bare = (list: readonly WaivedFinding[]): readonly Finding[] => list.map(({ finding }) => finding);
  const standing = compareFindingSets(findings, before.findings);
  const accepted = compareFindingSets(bare(waived), [...standing.gone, ...bare(before.waived)]);
  const gone = new Set(accepted.gone);
  return {
    newFindings: new Set([...standing.fresh, ...accepted.fresh]),
    goneFindings: standing.gone.filter((finding) => gone.has(finding)),
  };
};

interface ReportOptions {
  /** The report on an earlier state, to tell what is new. */
  readonly before?: ReportContent | undefined;
  /** Whether only some of the documents were compiled: then nobody knows which waivers meet nothing. */
  readonly isPartial?: boolean;
}

/** What a report says, taken from the analysis. `more` are findings of later stages, such as building documents. */
export const reportContent = (
  analysis: Analysis,
  more: readonly Finding[] = [],
  { before, isPartial = false }: ReportOptions = {},
): ReportContent => {
  const { project, graph, asOf, findingLevels } = analysis;
  const waivers = project.fields.waivers ?? [];
  const later = applyWaivers(tightenLevels(more, project.fields.tighten, graph), waivers, asOf);
  const idle = idleWaiverFindings(
    analysis.waivers.idle.filter(
      (waiver) =>
        !isPartial &&
        later.idle.includes(waiver) &&
        // One that names what does not exist has a finding of its own (waiver-unknown).
        findingLevels.has(waiver.code) &&
        graph.record(waiver.record) !== undefined,
    ),
    (waiver) => project.yaml.place(['waivers', waivers.indexOf(waiver)]),
  );
  const { standing, heldBack } = holdBack(
    later.standing,
    allChecks,
    graph,
    analysis.unread,
    analysis.project.unread,
  );
  const findings = [
    ...analysis.findings,
    ...standing,
    ...tightenLevels(idle, project.fields.tighten, graph),
  ].sort(compareFindings);
  const verdicts = { pass: 0, fail: 0, undecided: 0 };
  for (const result of analysis.evidence.values()) verdicts[result.verdict] += 1;
  const waivedFindings = [...analysis.waivers.waived, ...later.waived];
  const types = ['user-need', 'design-input', 'risk-control', 'risk'];
  return {
    findings,
    ...(before ? changesSince(before, findings, waivedFindings) : {}),
    waived: waivedFindings,
    recordCount: analysis.graph.records.size,
    unsound: analysis.unsound,
    heldBack: analysis.heldBack + heldBack,
    asOf: analysis.asOf,
    verdicts,
    standing: types.flatMap((type) => {
      const states = [...analysis.standing]
        .filter(([id]) => analysis.graph.record(id)?.type === type)
        .map(([, standing]) => standing.state as string);
      if (states.length === 0) return [];
      const counts = order
        .map((state) => [state, states.filter((each) => each === state).length] as const)
        .filter(([, count]) => count > 0);
      return [{ type: analysis.graph.types.get(type)?.plural ?? type, counts }];
    }),
    checks: analysis.reports,
  };
};

/** Path of the technical file as a CI service sees it: from the root of the repository, or else from where the command runs. */
const prefixOf = (path: string, terminal: Terminal): string => {
  const opened = openRepository(path);
  const way = opened.ok ? opened.repository.prefix : relative(terminal.folder, path);
  return way.split(sep).join('/');
};

/** A short text for each finding that does not change with lines; findings alike in all else are counted. */
const prints = (findings: readonly Finding[]): ((finding: Finding) => string) => {
  const seen = new Map<string, number>();
  const byFinding = new Map<Finding, string>();
  for (const finding of findings) {
    const print = fingerprint(finding);
    const count = (seen.get(print) ?? 0) + 1;
    seen.set(print, count);
    byFinding.set(finding, sha256Hex(new TextEncoder().encode(`${print} ${count}`)));
  }
  return (finding) => byFinding.get(finding) ?? '';
};

const machineForms: Readonly<Record<string, (report: MachineReport) => Promise<string>>> = {
  sarif: async (report) => (await import('../writers/sarif/write-sarif.ts')).writeSarif(report),
  junit: async (report) => (await import('../writers/junit/write-junit.ts')).writeJunit(report),
  github: async (report) => (await import('../writers/github/write-github.ts')).writeGithub(report),
  gitlab: async (report) => (await import('../writers/gitlab/write-gitlab.ts')).writeGitlab(report),
};

export interface PrintOptions {
  readonly folder: { readonly path: string; readonly shown: string };
  readonly format: string;
  readonly failOn: Level;
  /** Further fields of the JSON form. */
  readonly more?: Readonly<Record<string, unknown>>;
}

/** Prints a report in the form that was asked for. */
export const printReport = async (
  content: ReportContent,
  analysis: Analysis,
  { folder, format, failOn, more = {} }: PrintOptions,
  terminal: Terminal,
): Promise<void> => {
  terminal.progress('');
  if (format !== 'text') {
    const { findingRules } = await import('./finding-rules.ts');
    const report: MachineReport = {
      content,
      prefix: prefixOf(folder.path, terminal),
      toolVersion: analysis.toolVersion,
      rules: findingRules(),
      printOf: prints([
        ...content.findings,
        ...content.waived.map(({ finding }) => finding),
        ...(content.goneFindings ?? []),
      ]),
      failOn,
    };
    const write = machineForms[format];
    terminal.out(write ? await write(report) : writeReportJson(report, more));
    return;
  }
  const texts = new Map<string, readonly string[]>();
  const lineOf = (file: string, line: number): string | undefined => {
    if (!texts.has(file)) {
      const source = analysis.files.get(file);
      const decoded = source ? decodeText(source.bytes) : undefined;
      texts.set(file, decoded?.ok ? decoded.text.split('\n') : []);
    }
    return texts.get(file)?.[line - 1];
  };
  terminal.out(
    writeReportText(content, {
      width: terminal.width,
      colour: terminal.colour,
      folder: folder.shown,
      lineOf,
    }),
  );
};

/** Whether a report fails the run: a finding at or above the level, a new one where only those count. */
export const isFailing = (content: ReportContent, failOn: Level): boolean =>
  content.findings.some(
    (finding) => isAtLeast(finding.level, failOn) && (content.newFindings?.has(finding) ?? true),
  );

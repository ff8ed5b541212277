import type { Finding } from '../findings/finding.ts';
import { compareFindings } from '../findings/order.ts';
import type { Analysis } from '../pipeline.ts';
import { decodeText } from '../records/decode.ts';
import { writeReportJson } from '../writers/report-json/write-report-json.ts';
import { type ReportContent, writeReportText } from '../writers/report-text/write-report-text.ts';
import type { Terminal } from './command.ts';

const order = ['passed', 'planned', 'unplanned', 'in doubt', 'failed'];

/** What a report says, taken from the analysis. `more` are findings of later stages, such as building documents. */
export const reportContent = (analysis: Analysis, more: readonly Finding[] = []): ReportContent => {
  const verdicts = { pass: 0, fail: 0, undecided: 0 };
  for (const result of analysis.evidence.values()) verdicts[result.verdict] += 1;
  const types = ['user-need', 'design-input', 'risk-control', 'risk'];
  return {
    findings: [...analysis.findings, ...more].sort(compareFindings),
    waived: analysis.waivers.waived,
    recordCount: analysis.graph.records.size,
    unsound: analysis.unsound,
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

export const printReport = (
  content: ReportContent,
  analysis: Analysis,
  shown: string,
  format: string,
  terminal: Terminal,
  more: Readonly<Record<string, unknown>> = {},
): void => {
  terminal.progress('');
  if (format === 'json') {
    terminal.out(writeReportJson(content, more));
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
      folder: shown,
      lineOf,
    }),
  );
};

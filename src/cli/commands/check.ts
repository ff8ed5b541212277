import type { Level } from '../../findings/finding.ts';
import { isAtLeast } from '../../findings/order.ts';
import { analyseWithHistory } from '../analyse-with-history.ts';
import type { CommandRun } from '../command.ts';
import { documentsOf } from '../documents.ts';
import { printReport, reportContent } from '../report.ts';
import { findFolder, historyOptions, readInputs } from '../technical-file.ts';

export const run: CommandRun = async (request, terminal) => {
  const folder = findFolder(request.argument, terminal);
  const analysis = analyseWithHistory(
    readInputs(folder, request, terminal),
    historyOptions(folder, request, terminal),
  );
  const documents = await documentsOf(analysis);
  const content = reportContent(
    analysis,
    documents.flatMap((compiled) => compiled.findings),
  );
  printReport(content, analysis, folder.shown, request.options['format'] ?? 'text', terminal);
  const threshold = (request.options['fail-on'] ?? 'error') as Level;
  return content.findings.some((finding) => isAtLeast(finding.level, threshold)) ? 1 : 0;
};

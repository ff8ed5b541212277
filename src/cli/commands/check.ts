import type { Level } from '../../findings/finding.ts';
import type { ReportContent } from '../../writers/report-text/write-report-text.ts';
import { analyseWithHistory } from '../analyse-with-history.ts';
import type { CommandRun, Request, Terminal } from '../command.ts';
import { documentsOf, foundInDocuments } from '../documents.ts';
import { isFailing, printReport, reportContent } from '../report.ts';
import { stateOpener } from '../states.ts';
import { findFolder, historyOptions, readInputs } from '../technical-file.ts';

/** The report on the file as it was at a revision, judged by the same day and the same signers. */
const reportAt = async (
  revision: string,
  folder: { readonly path: string; readonly shown: string },
  request: Request,
  terminal: Terminal,
): Promise<ReportContent> => {
  const options = historyOptions(folder, request, terminal);
  const { analysis } = stateOpener(folder, request, terminal, (inputs, place) =>
    analyseWithHistory(inputs, { ...options, ...place }),
  ).named(revision);
  const documents = await documentsOf(analysis);
  return reportContent(analysis, await foundInDocuments(analysis, documents));
};

export const run: CommandRun = async (request, terminal) => {
  if (/\.docx$/i.test(request.argument ?? '')) {
    const { checkDocument } = await import('../check-document.ts');
    return checkDocument(request, terminal);
  }
  const folder = findFolder(request.argument, terminal);
  const analysis = analyseWithHistory(
    readInputs(folder, request, terminal),
    historyOptions(folder, request, terminal),
  );
  const documents = await documentsOf(analysis);
  const revision = request.options['new-since'];
  const content = reportContent(analysis, await foundInDocuments(analysis, documents), {
    before: revision === undefined ? undefined : await reportAt(revision, folder, request, terminal),
  });
  const failOn = (request.options['fail-on'] ?? 'error') as Level;
  await printReport(
    content,
    analysis,
    { folder, format: request.options['format'] ?? 'text', failOn },
    terminal,
  );
  return isFailing(content, failOn) ? 1 : 0;
};

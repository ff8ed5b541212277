import { recordBookmark } from '../../document/anchors.ts';
import { type Analysis, analyse } from '../../pipeline.ts';
import { decodeText } from '../../records/decode.ts';
import type { TechnicalRecord } from '../../records/record.ts';
import { type LocateContext, locateMark } from '../../returned/locate-mark.ts';
import { readReview } from '../../returned/read-review.ts';
import { reviewFindings } from '../../returned/review-findings.ts';
import type { CommandRun } from '../command.ts';
import { commentsJson, commentsText, isOpen, type ReturnedReview } from '../comments-report.ts';
import { printReport, reportContent } from '../report.ts';
import { openReturnedFile, type ReturnedFile, refusingFaults } from '../returned-file.ts';
import { findFolder, readInputs } from '../technical-file.ts';

/** Where marks can be traced to: the records as they are now. */
const contextOf = (returned: ReturnedFile, { graph, files }: Analysis): LocateContext => {
  const byBookmark = new Map(
    [...graph.records.values()].map((record) => [recordBookmark(record.id), record]),
  );
  const textOf = (record: TechnicalRecord): string => {
    const decoded = decodeText(files.get(record.file)?.bytes ?? new Uint8Array());
    return decoded.ok ? decoded.text : '';
  };
  return {
    recordOfBookmark: (bookmark) => byBookmark.get(bookmark),
    document: graph.record(returned.properties.get('Record') ?? ''),
    textOf,
    recordsNamedIn: (text) => [
      ...new Set(
        (text.match(/[A-Z]{2,5}-[A-Za-z0-9.-]{0,30}[A-Za-z0-9]/g) ?? []).flatMap(
          (id) => graph.record(id) ?? [],
        ),
      ),
    ],
  };
};

export const run: CommandRun = async (request, terminal) => {
  const shown = request.argument ?? '';
  const returned = openReturnedFile(shown, terminal);
  const folder = findFolder(request.options['in'], terminal);
  const analysis = analyse(readInputs(folder, request, terminal), []);
  const context = contextOf(returned, analysis);
  const marks = refusingFaults(shown, () => readReview(returned.package));
  const document = returned.properties.get('Document');
  const review: ReturnedReview = {
    file: returned.name,
    document,
    record: returned.properties.get('Record'),
    marks: marks.map((mark) => locateMark(mark, context)),
  };
  const isFailing = marks.some(isOpen);
  const format = request.options['format'] ?? 'text';
  if (format !== 'text' && format !== 'json') {
    const content = { ...reportContent(analysis), findings: reviewFindings(review.marks), waived: [] };
    await printReport(content, analysis, { folder, format, failOn: 'warning' }, terminal);
    return isFailing ? 1 : 0;
  }
  terminal.progress('');
  if (format === 'json') terminal.out(`${JSON.stringify(commentsJson(review), null, 2)}\n`);
  else terminal.out(commentsText(review, terminal.width));
  return isFailing ? 1 : 0;
};

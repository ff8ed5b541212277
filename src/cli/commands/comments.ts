import { analyse } from '../../pipeline.ts';
import { createLocator } from '../../returned/locate-mark.ts';
import { readReview } from '../../returned/read-review.ts';
import { reviewFindings } from '../../returned/review-findings.ts';
import type { CommandRun } from '../command.ts';
import { commentsJson, commentsText, isOpen, type ReturnedReview } from '../comments-report.ts';
import { printReport, reportContent } from '../report.ts';
import { openReturnedFile, refusingFaults } from '../returned-file.ts';
import { contextOf } from '../review-context.ts';
import { findFolder, readInputs } from '../technical-file.ts';

export const run: CommandRun = async (request, terminal) => {
  const shown = request.argument ?? '';
  const returned = openReturnedFile(shown, terminal);
  const folder = findFolder(request.options['in'], terminal);
  const analysis = analyse(readInputs(folder, request, terminal), []);
  const locate = createLocator(contextOf(returned.properties.get('Record'), analysis));
  const marks = refusingFaults(shown, () => readReview(returned.package));
  const document = returned.properties.get('Document');
  const review: ReturnedReview = {
    file: returned.name,
    document,
    record: returned.properties.get('Record'),
    marks: marks.map(locate),
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

import { comparedLimits } from '../returned/word-package.ts';
import { analyseWithHistory } from './analyse-with-history.ts';
import type { CommandRun } from './command.ts';
import { documentOrigin } from './document-origin.ts';
import { originJson, originText } from './origin-report.ts';
import { Refusal } from './refusal.ts';
import { openReturnedFile } from './returned-file.ts';
import { findFolder, historyOptions, readInputs } from './technical-file.ts';

/** Tells of a Word file in hand whether it belongs to the technical file as it is now: `plinth check FILE.docx`. */
export const checkDocument: CommandRun = async (request, terminal) => {
  const format = request.options['format'] ?? 'text';
  if (format !== 'text' && format !== 'json')
    throw new Refusal(
      `the origin of a Word file has no form "${format}"`,
      'Use --format text or --format json.',
    );
  const returned = openReturnedFile(request.argument ?? '', terminal, comparedLimits);
  const folder = findFolder(request.options['in'], terminal);
  const inputs = readInputs(folder, request, terminal);
  const report = await documentOrigin(
    returned,
    folder.path,
    analyseWithHistory(inputs, historyOptions(folder, request, terminal)),
    inputs,
  );
  terminal.progress('');
  terminal.out(
    format === 'json'
      ? `${JSON.stringify(originJson(report), null, 2)}\n`
      : originText(report, terminal.width),
  );
  return report.unedited === 'yes' && report.currentText === 'yes' && report.changes === 0 ? 0 : 1;
};

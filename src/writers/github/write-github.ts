import type { Finding } from '../../findings/finding.ts';
import { countByLevel } from '../../findings/order.ts';
import { type MachineReport, pathFrom } from '../machine-report.ts';
import { visible } from '../report-text/printable.ts';
import { newCount, plural } from '../report-text/write-report-text.ts';

const data = (text: string): string =>
  visible(text).replace(/%/g, '%25').replace(/\r/g, '%0D').replace(/\n/g, '%0A');
const property = (text: string): string => data(text).replace(/:/g, '%3A').replace(/,/g, '%2C');

const commands = { error: 'error', warning: 'warning', note: 'notice' } as const;

/** Workflow commands of GitHub Actions: each finding becomes an annotation at its line. A log shows them too, so control characters are made visible. */
export const writeGithub = ({ content, prefix }: MachineReport): string => {
  const annotation = (finding: Finding): string => {
    const { place, level, code, message, hint, related } = finding;
    const properties = [
      `file=${property(pathFrom(prefix, place.file))}`,
      `line=${place.line}`,
      ...(place.endLine === undefined ? [] : [`endLine=${place.endLine}`]),
      `col=${place.column}`,
      ...(place.endColumn === undefined || place.endLine !== place.line
        ? []
        : [`endColumn=${place.endColumn}`]),
      `title=${property(content.newFindings?.has(finding) ? `${code} (new)` : code)}`,
    ];
    const lines = [
      message,
      ...related
        .slice(0, 6)
        .map((each) => `${pathFrom(prefix, each.place.file)}:${each.place.line} ${each.message}`),
      ...(hint ? [hint] : []),
    ];
    return `::${commands[level]} ${properties.join(',')}::${data(lines.join('\n'))}`;
  };
  const counts = countByLevel(content.findings);
  const totals = [
    plural(counts.error, 'error'),
    plural(counts.warning, 'warning'),
    plural(counts.note, 'note'),
    ...(content.waived.length > 0 ? [`${content.waived.length} waived`] : []),
    ...(content.newFindings ? [`${newCount(content)} new`] : []),
  ];
  return [
    ...content.findings.map(annotation),
    `plinth: ${totals.join(', ')}, as of ${content.asOf}`,
    '',
  ].join('\n');
};

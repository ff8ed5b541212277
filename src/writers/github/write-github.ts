import type { Finding } from '../../findings/finding.ts';
import { countByLevel } from '../../findings/order.ts';
import { type MachineReport, pathFrom } from '../machine-report.ts';

const data = (text: string): string => text.replace(/%/g, '%25').replace(/\r/g, '%0D').replace(/\n/g, '%0A');
const property = (text: string): string => data(text).replace(/:/g, '%3A').replace(/,/g, '%2C');

const commands = { error: 'error', warning: 'warning', note: 'notice' } as const;

/** Workflow commands of GitHub Actions: each finding becomes an annotation at its line. */
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
  return [
    ...content.findings.map(annotation),
    `plinth: ${counts.error} errors, ${counts.warning} warnings, ${counts.note} notes, as of ${content.asOf}`,
    '',
  ].join('\n');
};

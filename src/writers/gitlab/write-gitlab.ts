import { type MachineReport, pathFrom } from '../machine-report.ts';

const severities = { error: 'critical', warning: 'minor', note: 'info' } as const;

/** Code quality report of GitLab: a list of findings, each with a fingerprint of its own. */
export const writeGitlab = ({ content, prefix, printOf }: MachineReport): string =>
  `${JSON.stringify(
    content.findings.map((finding) => ({
      description: finding.hint ? `${finding.message}. ${finding.hint}` : finding.message,
      check_name: finding.code,
      fingerprint: printOf(finding),
      severity: severities[finding.level],
      location: { path: pathFrom(prefix, finding.place.file), lines: { begin: finding.place.line } },
    })),
    null,
    2,
  )}\n`;

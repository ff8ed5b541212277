import { fingerprint } from '../../findings/fingerprint.ts';
import { countByLevel } from '../../findings/order.ts';
import type { MachineReport } from '../machine-report.ts';
import { newCount } from '../report-text/write-report-text.ts';

/** Version of the form below. A field may be added; none changes its meaning without a new number. */
export const reportVersion = 1;

/** The report for machines. */
export const writeReportJson = (
  { content, prefix, toolVersion }: MachineReport,
  more: Readonly<Record<string, unknown>> = {},
): string =>
  `${JSON.stringify(
    {
      form: 'plinth-report',
      version: reportVersion,
      plinth: toolVersion,
      asOf: content.asOf,
      // Where the technical file lies in its repository: put it before each "file" to find it from there.
      folder: prefix,
      records: content.recordCount,
      recordsNotJudged: content.unsound,
      counts: {
        ...countByLevel(content.findings),
        waived: content.waived.length,
        ...(content.newFindings ? { new: newCount(content) } : {}),
        ...(content.goneFindings ? { gone: content.goneFindings.length } : {}),
      },
      verdicts: content.verdicts,
      standing: Object.fromEntries(
        content.standing.map(({ type, counts }) => [type, Object.fromEntries(counts)]),
      ),
      findings: content.findings.map((finding) => ({
        ...finding,
        fingerprint: fingerprint(finding),
        ...(content.newFindings ? { new: content.newFindings.has(finding) } : {}),
      })),
      waived: content.waived,
      ...(content.goneFindings
        ? { gone: content.goneFindings.map((finding) => ({ ...finding, fingerprint: fingerprint(finding) })) }
        : {}),
      checks: content.checks,
      ...more,
    },
    null,
    2,
  )}\n`;

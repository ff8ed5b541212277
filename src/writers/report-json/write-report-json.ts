import { fingerprint } from '../../findings/fingerprint.ts';
import { countByLevel } from '../../findings/order.ts';
import type { ReportContent } from '../report-text/write-report-text.ts';

/** Version of the form below. A field may be added; none changes its meaning without a new number. */
export const reportVersion = 1;

/** The report for machines. */
export const writeReportJson = (
  content: ReportContent,
  more: Readonly<Record<string, unknown>> = {},
): string =>
  `${JSON.stringify(
    {
      form: 'plinth-report',
      version: reportVersion,
      asOf: content.asOf,
      records: content.recordCount,
      recordsNotJudged: content.unsound,
      counts: {
        ...countByLevel(content.findings),
        waived: content.waived.length,
      },
      verdicts: content.verdicts,
      standing: Object.fromEntries(
        content.standing.map(({ type, counts }) => [type, Object.fromEntries(counts)]),
      ),
      findings: content.findings.map((finding) => ({
        ...finding,
        fingerprint: fingerprint(finding),
      })),
      waived: content.waived,
      checks: content.checks,
      ...more,
    },
    null,
    2,
  )}\n`;

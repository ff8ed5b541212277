import type { Finding, Place } from '../../findings/finding.ts';
import type { Waiver } from '../../findings/waivers.ts';
import { type MachineReport, pathFrom } from '../machine-report.ts';

/** A path as a relative reference (RFC 3986). Half a character, which no encoding knows, becomes the sign for it. */
const uriOf = (path: string): string =>
  encodeURI(path.replace(/\p{Surrogate}/gu, '\ufffd')).replace(/[?#]/g, encodeURIComponent);

/**
 * SARIF 2.1.0 (OASIS). Levels, places and columns are those of our findings: UTF-16 code units from 1. Where an earlier
 * state was named, `baselineState` says what is new, and findings that are gone follow as `absent`, at their places then.
 */
export const writeSarif = (report: MachineReport): string => {
  const { content, prefix, rules } = report;
  const gone = content.goneFindings ?? [];
  const codes = [
    ...new Set(
      [...content.findings, ...content.waived.map(({ finding }) => finding), ...gone].map(({ code }) => code),
    ),
  ].sort();
  const location = (place: Place) => ({
    physicalLocation: {
      artifactLocation: { uri: uriOf(pathFrom(prefix, place.file)) },
      region: {
        startLine: place.line,
        startColumn: place.column,
        ...(place.endLine === undefined ? {} : { endLine: place.endLine }),
        ...(place.endColumn === undefined ? {} : { endColumn: place.endColumn }),
      },
    },
  });
  const isGone = new Set(gone);
  const baselineStateOf = (finding: Finding): 'new' | 'unchanged' | 'absent' =>
    isGone.has(finding) ? 'absent' : content.newFindings?.has(finding) ? 'new' : 'unchanged';
  const result = (finding: Finding, waiver?: Waiver) => ({
    ruleId: finding.code,
    ruleIndex: codes.indexOf(finding.code),
    level: finding.level,
    message: { text: finding.hint ? `${finding.message}. ${finding.hint}` : finding.message },
    locations: [location(finding.place)],
    ...(finding.related.length > 0
      ? {
          relatedLocations: finding.related.map((related, index) => ({
            id: index + 1,
            message: { text: related.message },
            ...location(related.place),
          })),
        }
      : {}),
    partialFingerprints: { 'plinthFinding/v1': report.printOf(finding) },
    ...(content.newFindings ? { baselineState: baselineStateOf(finding) } : {}),
    ...(waiver
      ? {
          suppressions: [
            {
              kind: 'external',
              status: 'accepted',
              justification: `${waiver.reason} (${waiver.role}, ${waiver.date}, until ${waiver.expires})`,
            },
          ],
        }
      : {}),
    properties: { records: finding.records },
  });
  return `${JSON.stringify(
    {
      $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
      version: '2.1.0',
      runs: [
        {
          tool: {
            driver: {
              name: 'plinth',
              version: report.toolVersion,
              rules: codes.map((code) => {
                const rule = rules.get(code);
                return {
                  id: code,
                  ...(rule
                    ? {
                        shortDescription: { text: rule.title },
                        fullDescription: { text: rule.explain.split('\n\n')[0] },
                        help: { text: rule.explain, markdown: rule.explain },
                        defaultConfiguration: { level: rule.level },
                      }
                    : {}),
                };
              }),
            },
          },
          columnKind: 'utf16CodeUnits',
          results: [
            ...content.findings.map((finding) => result(finding)),
            ...content.waived.map(({ finding, waiver }) => result(finding, waiver)),
            ...gone.map((finding) => result(finding)),
          ],
          properties: { asOf: content.asOf, records: content.recordCount },
        },
      ],
    },
    null,
    2,
  )}\n`;
};

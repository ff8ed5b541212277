import type { Finding } from '../../findings/finding.ts';
import { isAtLeast } from '../../findings/order.ts';
import { type MachineReport, pathFrom } from '../machine-report.ts';
import { visible } from '../report-text/printable.ts';

/** Control characters and what else XML 1.0 does not hold become a sign; the others are written so that they stay what they are. */
const escapeXml = (text: string): string =>
  [...visible(text)]
    .map((character) => {
      const code = character.codePointAt(0) ?? 0;
      const isAllowed =
        code === 0x09 ||
        code === 0x0a ||
        code === 0x0d ||
        (code >= 0x20 && code <= 0xd7ff) ||
        (code >= 0xe000 && code <= 0xfffd) ||
        code >= 0x10000;
      if (!isAllowed) return '\ufffd';
      return escapes[character] ?? character;
    })
    .join('');

const escapes: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  '\t': '&#9;',
  '\n': '&#10;',
  '\r': '&#13;',
};

/**
 * JUnit XML in the strict form that the Ant schema asks for: one test case for each check, with what it examined in its
 * name, and one for each other code that was found. A case fails by findings at or above the level that fails the run
 * (of these, where an earlier state was named, only new ones); the others and those accepted by waiver are in system-out.
 * There is no clock in it: the time stamp is the as-of date.
 */
export const writeJunit = (report: MachineReport): string => {
  const { content, failOn, prefix } = report;
  const fails = (finding: Finding): boolean =>
    isAtLeast(finding.level, failOn) && (content.newFindings?.has(finding) ?? true);
  const line = ({ place, level, message, hint }: Finding): string =>
    `${pathFrom(prefix, place.file)}:${place.line}:${place.column} ${level}: ${message}${hint ? `. ${hint}` : ''}`;
  const known = new Set(content.checks.map((check) => check.code));
  const others = [...new Set(content.findings.map(({ code }) => code))]
    .filter((code) => !known.has(code))
    .sort();
  const cases = [
    ...content.checks.map(({ code, examined, examines }) => ({
      code,
      name: `${code}: ${examined} ${examines}`,
    })),
    ...others.map((code) => ({ code, name: code })),
  ].map(({ code, name }) => {
    const failing = content.findings.filter((finding) => finding.code === code && fails(finding));
    const [first] = failing;
    const head = `    <testcase name="${escapeXml(name)}" classname="plinth.${escapeXml(code)}" time="0"`;
    if (!first) return { isFailed: false, text: `${head}/>` };
    const more = failing.length > 1 ? ` (and ${failing.length - 1} more)` : '';
    return {
      isFailed: true,
      text: `${head}>
      <failure type="${first.level}" message="${escapeXml(`${first.message}${more}`)}">${escapeXml(failing.map(line).join('\n'))}</failure>
    </testcase>`,
    };
  });
  const failed = cases.filter((each) => each.isFailed).length;
  const notes = [
    ...content.findings.filter((finding) => !fails(finding)).map(line),
    ...content.waived.map(
      ({ finding, waiver }) => `${line(finding)} (accepted until ${waiver.expires}: ${waiver.reason})`,
    ),
  ];
  return `<?xml version="1.0" encoding="UTF-8"?>
<testsuites>
  <testsuite package="plinth" id="0" name="technical file" timestamp="${content.asOf}T00:00:00" hostname="localhost" tests="${cases.length}" failures="${failed}" errors="0" time="0">
    <properties>
      <property name="plinth" value="${escapeXml(report.toolVersion)}"/>
      <property name="as-of" value="${escapeXml(content.asOf)}"/>
    </properties>
${cases.map((each) => each.text).join('\n')}
    <system-out>${escapeXml(notes.join('\n'))}</system-out>
    <system-err></system-err>
  </testsuite>
</testsuites>
`;
};

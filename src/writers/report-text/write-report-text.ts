import stringWidth from 'string-width';
import type { Finding, Level } from '../../findings/finding.ts';
import { countByLevel } from '../../findings/order.ts';
import type { WaivedFinding } from '../../findings/waivers.ts';
import { excerptOf } from './excerpt.ts';
import { folded } from './folded.ts';
import { printable } from './printable.ts';

export interface ReportContent {
  readonly findings: readonly Finding[];
  readonly waived: readonly WaivedFinding[];
  /** Those of the findings, waived ones too, that an earlier state did not have, where one was named. */
  readonly newFindings?: ReadonlySet<Finding>;
  /** Findings that stood in the earlier state and no longer do, with their places then. */
  readonly goneFindings?: readonly Finding[];
  readonly recordCount: number;
  readonly unsound: number;
  /** Findings that may only follow from records which cannot be read. */
  readonly heldBack?: number;
  readonly asOf: string;
  readonly verdicts: {
    readonly pass: number;
    readonly fail: number;
    readonly undecided: number;
  };
  readonly standing: readonly {
    readonly type: string;
    readonly counts: readonly (readonly [string, number])[];
  }[];
  readonly checks: readonly {
    readonly code: string;
    readonly examines: string;
    readonly examined: number;
    readonly found: number;
  }[];
}

export interface TextOptions {
  readonly width: number;
  readonly colour: boolean;
  /** Put before every path, so that it can be opened from where the user is. */
  readonly folder: string;
  /** Text of a line of a file, for the excerpt; undefined where it is not known. */
  readonly lineOf: (file: string, line: number) => string | undefined;
}

const escapeSequence = '\u001b[';
const colours: Record<Level | 'quiet' | 'strong', string> = {
  error: '31;1',
  warning: '33;1',
  note: '36',
  quiet: '2',
  strong: '1',
};

type Paint = (kind: keyof typeof colours, text: string) => string;

/** Places that are listed below one finding; the JSON form has all of them. */
const mostRelated = 12;

/**
 * The report for a person at a terminal. What was examined comes first and the findings last, where the eye is when
 * the command has ended. Texts of the technical file are made safe for the terminal.
 */
export const writeReportText = (content: ReportContent, options: TextOptions): string => {
  const paint: Paint = (kind, text) =>
    options.colour ? `${escapeSequence}${colours[kind]}m${text}${escapeSequence}0m` : text;
  const parts = [
    examined(content, options, paint),
    standing(content, options, paint),
    ...content.findings.map((finding) =>
      findingLines(finding, options, paint, content.newFindings?.has(finding) === true),
    ),
    waived(content, options, paint),
    closing(content, options, paint),
  ];
  return parts
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n');
};

const examined = ({ checks }: ReportContent, { width }: TextOptions, paint: Paint): readonly string[] => {
  const busy = checks.filter((check) => check.examined > 0);
  const idle = checks.filter((check) => check.examined === 0);
  const column = Math.max(0, ...busy.map((check) => check.code.length));
  return [
    paint('strong', 'What was examined'),
    ...busy.flatMap((check) => {
      const left = `  ${check.code.padEnd(column)} ${String(check.examined).padStart(5)} `;
      const room = width - left.length;
      if (room < 16) return folded(`${check.code}: ${check.examined} ${check.examines}`, width, '  ');
      const [first = '', ...rest] = folded(check.examines, room);
      return [`${left}${first}`, ...rest.map((line) => ' '.repeat(left.length) + line.trimStart())];
    }),
    ...(idle.length > 0
      ? folded(`Nothing to examine for: ${idle.map((check) => check.code).join(', ')}.`, width, '  ')
      : []),
  ];
};

const standing = (
  { standing: list }: ReportContent,
  { width }: TextOptions,
  paint: Paint,
): readonly string[] => {
  if (list.length === 0) return [];
  const column = Math.max(...list.map(({ type }) => stringWidth(printable(type))));
  return [
    paint('strong', 'Standing'),
    ...list.flatMap(({ type, counts }) => {
      const name = printable(type);
      const states = counts.map(([state, count]) => `${count} ${state}`).join(', ');
      const line = `  ${name}${' '.repeat(column - stringWidth(name))}  ${states}`;
      return stringWidth(line) <= width ? [line] : folded(`${name}: ${states}`, width, '  ');
    }),
  ];
};

const findingLines = (
  finding: Finding,
  options: TextOptions,
  paint: Paint,
  isNew: boolean,
): readonly string[] => {
  const { place, related } = finding;
  const { width } = options;
  const shown = (file: string): string => (options.folder === '.' ? file : `${options.folder}/${file}`);
  const where = `${printable(shown(place.file))}:${place.line}:${place.column}`;
  const mark = isNew ? '  new' : '';
  const what = `${paint(finding.level, finding.level)}  ${paint('quiet', finding.code)}${paint('strong', mark)}`;
  const isShort = stringWidth(where) + finding.level.length + finding.code.length + mark.length + 4 <= width;
  const head = isShort ? [`${paint('strong', where)}  ${what}`] : [paint('strong', where), `  ${what}`];
  const source = options.lineOf(place.file, place.line);
  const hasExcerpt = source !== undefined && source.trim() !== '' && source !== '---';
  const endColumn = place.endLine === place.line ? place.endColumn : undefined;
  const excerpt = hasExcerpt ? excerptOf(source, place.column, endColumn, width - 4) : undefined;
  return [
    ...head,
    ...folded(finding.message, width, '  '),
    ...(excerpt
      ? [`    ${paint('quiet', excerpt.line)}`, `    ${excerpt.before}${paint('strong', excerpt.marks)}`]
      : []),
    ...related
      .slice(0, mostRelated)
      .flatMap((each) =>
        folded(`see ${shown(each.place.file)}:${each.place.line}: ${each.message}`, width, '  '),
      ),
    ...(related.length > mostRelated ? [`  and ${related.length - mostRelated} more places`] : []),
    ...(finding.hint ? folded(`do: ${finding.hint}`, width, '  ') : []),
  ];
};

const waived = (content: ReportContent, { width }: TextOptions, paint: Paint): readonly string[] =>
  content.waived.length === 0
    ? []
    : [
        paint('strong', 'Accepted by waiver'),
        ...content.waived.flatMap(({ finding, waiver }) =>
          folded(
            `${finding.records[0] ?? finding.place.file} ${finding.code}: ${waiver.reason} (${waiver.role}, until ${waiver.expires})`,
            width,
            '  ',
          ),
        ),
      ];

/** How many of the findings that stand are new. */
export const newCount = ({ findings, newFindings }: ReportContent): number =>
  findings.filter((finding) => newFindings?.has(finding)).length;

/** `1 error`, `2 errors` */
export const plural = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

const closing = (content: ReportContent, { width }: TextOptions, paint: Paint): readonly string[] => {
  const counts = countByLevel(content.findings);
  const { pass, fail, undecided } = content.verdicts;
  const unsound =
    content.unsound === 0
      ? []
      : folded(
          `${plural(content.unsound, 'record')} could not be judged: ${content.unsound === 1 ? 'it does' : 'they do'} not meet the schema (see above).`,
          width,
        );
  const heldBack =
    content.heldBack === undefined || content.heldBack === 0
      ? []
      : folded(
          `${plural(content.heldBack, 'finding')} ${content.heldBack === 1 ? 'is' : 'are'} held back: ${content.heldBack === 1 ? 'it' : 'they'} may only follow from what cannot be read.`,
          width,
        );
  const levels = [
    paint(counts.error > 0 ? 'error' : 'strong', plural(counts.error, 'error')),
    paint(counts.warning > 0 ? 'warning' : 'strong', plural(counts.warning, 'warning')),
    plural(counts.note, 'note'),
    ...(content.waived.length > 0 ? [`${content.waived.length} waived`] : []),
    ...(content.newFindings ? [`${newCount(content)} new`] : []),
    ...(content.goneFindings ? [`${content.goneFindings.length} gone`] : []),
  ];
  return [
    ...folded(
      `Verdicts recomputed from raw data: ${pass} pass, ${fail} fail, ${undecided} undecided.`,
      width,
    ),
    ...unsound,
    ...heldBack,
    ...folded(
      `${plural(content.recordCount, 'record')}, ${plural(content.checks.length, 'check')}, as of ${content.asOf}:`,
      width,
    ),
    ...(stringWidth(levels.join(', ')) <= width ? [levels.join(', ')] : levels),
  ];
};

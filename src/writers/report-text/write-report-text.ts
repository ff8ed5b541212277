import type { Finding, Level } from '../../findings/finding.ts';
import { countByLevel } from '../../findings/order.ts';
import type { WaivedFinding } from '../../findings/waivers.ts';

export interface ReportContent {
  readonly findings: readonly Finding[];
  readonly waived: readonly WaivedFinding[];
  readonly recordCount: number;
  readonly unsound: number;
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

const escape = '\u001b[';
const colours: Record<Level | 'quiet' | 'strong', string> = {
  error: '31;1',
  warning: '33;1',
  note: '36',
  quiet: '2',
  strong: '1',
};

/** The report for a person at a terminal. */
export const writeReportText = (content: ReportContent, options: TextOptions): string => {
  const paint = (kind: keyof typeof colours, text: string): string =>
    options.colour ? `${escape}${colours[kind]}m${text}${escape}0m` : text;
  const lines: string[] = [];
  for (const finding of content.findings) lines.push(...findingLines(finding, options, paint), '');
  if (content.waived.length > 0) {
    lines.push(paint('strong', 'Accepted by waiver'));
    for (const { finding, waiver } of content.waived)
      lines.push(
        ...folded(
          `${finding.records[0] ?? finding.place.file} ${finding.code}: ${waiver.reason} (${waiver.role}, until ${waiver.expires})`,
          options.width,
          '  ',
        ),
      );
    lines.push('');
  }
  lines.push(...summary(content, options, paint));
  return `${lines.join('\n')}\n`;
};

type Paint = (kind: keyof typeof colours, text: string) => string;

const findingLines = (finding: Finding, options: TextOptions, paint: Paint): readonly string[] => {
  const { place } = finding;
  const path = options.folder === '.' ? place.file : `${options.folder}/${place.file}`;
  const head = `${paint('strong', `${path}:${place.line}:${place.column}`)}  ${paint(finding.level, finding.level)}  ${paint('quiet', finding.code)}`;
  const lines = [head, ...folded(finding.message, options.width, '  ')];
  const source = options.lineOf(place.file, place.line);
  if (source !== undefined && source.trim() !== '' && source !== '---')
    lines.push(
      ...excerpt(
        source,
        place.column,
        place.endLine === place.line ? place.endColumn : undefined,
        options.width,
        paint,
      ),
    );
  for (const related of finding.related.slice(0, 12))
    lines.push(
      ...folded(`see ${related.place.file}:${related.place.line}: ${related.message}`, options.width, '  '),
    );
  if (finding.related.length > 12) lines.push(`  and ${finding.related.length - 12} more places`);
  if (finding.hint) lines.push(...folded(`do: ${finding.hint}`, options.width, '  '));
  return lines;
};

/** The line of the file with the place marked below it, cut to the width of the terminal. */
const excerpt = (
  source: string,
  column: number,
  endColumn: number | undefined,
  width: number,
  paint: Paint,
): readonly string[] => {
  const clean = source.replace(/\p{Cc}/gu, ' ');
  const room = width - 6;
  const from = column > room - 10 ? Math.max(0, column - 20) : 0;
  const shown = `${from > 0 ? '…' : ''}${clean.slice(from, from + room - 1)}${clean.length > from + room - 1 ? '…' : ''}`;
  const start = column - 1 - from + (from > 0 ? 1 : 0);
  const length = Math.max(1, Math.min((endColumn ?? column + 1) - column, shown.length - start));
  return [
    `    ${paint('quiet', shown)}`,
    `    ${' '.repeat(Math.max(0, start))}${paint('strong', '~'.repeat(length))}`,
  ];
};

const folded = (text: string, width: number, indent: string): string[] => {
  const lines: string[] = [];
  let line = indent;
  for (const word of text.split(/\s+/)) {
    if (line.trim() !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = `${indent}  `;
    }
    line += line.trim() === '' ? word : ` ${word}`;
  }
  return [...lines, line];
};

const plural = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

const summary = (content: ReportContent, options: TextOptions, paint: Paint): readonly string[] => {
  const counts = countByLevel(content.findings);
  const lines: string[] = [paint('strong', 'What was examined')];
  const width = Math.max(...content.checks.map((check) => check.code.length), 10);
  for (const check of content.checks) {
    const line = `  ${check.code.padEnd(width)}  ${String(check.examined).padStart(5)} ${check.examines}`;
    lines.push(check.examined === 0 ? paint('quiet', line) : line);
  }
  lines.push('');
  if (content.standing.length > 0) {
    lines.push(paint('strong', 'Standing'));
    for (const { type, counts: states } of content.standing)
      lines.push(
        `  ${type.padEnd(width)}  ${states.map(([state, count]) => `${count} ${state}`).join(', ')}`,
      );
    lines.push('');
  }
  const { pass, fail, undecided } = content.verdicts;
  lines.push(
    ...folded(
      `Verdicts recomputed from raw data: ${pass} pass, ${fail} fail, ${undecided} undecided.`,
      options.width,
      '',
    ),
  );
  if (content.unsound > 0)
    lines.push(
      ...folded(
        `${plural(content.unsound, 'record')} could not be judged: ${content.unsound === 1 ? 'it does' : 'they do'} not meet the schema (see above).`,
        options.width,
        '',
      ),
    );
  lines.push(
    `${plural(content.recordCount, 'record')}, ${plural(content.checks.length, 'check')}, as of ${content.asOf}: ` +
      [
        paint(counts.error > 0 ? 'error' : 'strong', plural(counts.error, 'error')),
        paint(counts.warning > 0 ? 'warning' : 'strong', plural(counts.warning, 'warning')),
        plural(counts.note, 'note'),
      ].join(', ') +
      (content.waived.length > 0 ? `, ${content.waived.length} waived` : ''),
  );
  return lines;
};

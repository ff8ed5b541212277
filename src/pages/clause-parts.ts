import type { Grid, SiteInline } from '../document/site.ts';
import { applicabilityWords, type LegalRow, legalRowsOf } from '../graph/legal-rows.ts';
import type { RecordOf } from '../records/record.ts';
import { text } from '../views/cells.ts';
import { approvalWord, mark, type SiteContext } from './site-context.ts';

/** States of evidence, the weakest first. */
const weakestFirst = ['failed', 'in doubt', 'unplanned', 'planned', 'passed'];

const verdictStates: Readonly<Record<string, string>> = {
  pass: 'passed',
  fail: 'failed',
  undecided: 'in doubt',
};

/** How far one piece of evidence is shown; undefined where it has neither a standing nor a verdict. */
const stateOf = (id: string, { standing, evidence }: SiteContext): string | undefined =>
  standing.get(id)?.state ?? verdictStates[evidence.get(id)?.verdict ?? ''];

/** How far what a row names is shown: the weakest of what has a standing or a verdict; undefined where nothing has. */
export const evidenceState = (row: LegalRow, context: SiteContext): string | undefined => {
  const states = row.evidence.flatMap(({ record }) => stateOf(record, context) ?? []);
  return weakestFirst.find((state) => states.includes(state));
};

/** Records that a row names as its evidence, with the places in them. */
export const evidenceWords = ({ evidence }: LegalRow): readonly SiteInline[] =>
  evidence.length === 0
    ? [text('–')]
    : evidence.flatMap(({ record, location }, index): readonly SiteInline[] => [
        ...(index === 0 ? [] : [text(' ')]),
        { kind: 'record-reference', id: record },
        ...(location === undefined ? [] : [text(` (${location})`, { tone: 'quiet' })]),
      ]);

/** Standards that a row applies, with their clauses. */
export const standardWords = ({ standards }: LegalRow): readonly SiteInline[] =>
  standards.length === 0
    ? [text('–')]
    : standards.flatMap(({ standard, clauses }, index): readonly SiteInline[] => [
        ...(index === 0 ? [] : [text(', ')]),
        { kind: 'record-reference', id: standard },
        ...(clauses === undefined ? [] : [text(` ${clauses}`)]),
      ]);

/** Each piece of evidence on a line of its own, with how far it is shown. */
const evidenceLines = ({ evidence }: LegalRow, context: SiteContext): readonly SiteInline[] =>
  evidence.length === 0
    ? [text('–')]
    : evidence.flatMap(({ record, location }, index): readonly SiteInline[] => {
        const state = stateOf(record, context);
        return [
          ...(index === 0 ? [] : [{ kind: 'line-break' } as const]),
          { kind: 'record-reference', id: record },
          ...(location === undefined ? [] : [text(` (${location})`, { tone: 'quiet' })]),
          text(' '),
          // A document or a review is no result: what can be said of it is whether its approval holds.
          ...(state === undefined
            ? [text('approval ', { tone: 'quiet' }), mark(approvalWord(record, context))]
            : [mark(state)]),
        ];
      });

/** All that a row says in words, each on a line of its own. */
const wordsOf = ({ solution, reason, note }: LegalRow): readonly SiteInline[] => {
  const lines = [solution, reason, note].flatMap((words) => words ?? []);
  return lines.length === 0
    ? [text('–')]
    : lines.flatMap((words, index): readonly SiteInline[] => [
        ...(index === 0 ? [] : [{ kind: 'line-break' } as const]),
        text(words),
      ]);
};

/** The clauses that a legal requirement answers, each with its evidence and how far that is shown. */
export const clauseGrid = (record: RecordOf<'legal-requirement'>, context: SiteContext): Grid => {
  const table = context.clauseTables.inUse(record.fields.table);
  const rows = legalRowsOf(record);
  return {
    kind: 'grid',
    id: `clauses-${record.id}`,
    caption: 'Clauses, what answers them and how far it is shown',
    isPlain: true,
    whenEmpty: '',
    columns: [
      { title: 'Clause', width: 9 },
      { title: 'What it asks for', width: 16 },
      { title: 'Applies', width: 8 },
      { title: 'Solution or reason', width: 26 },
      { title: 'Evidence', width: 20 },
      { title: 'Weakest', width: 10 },
      { title: 'Method', width: 10 },
      { title: 'Standards', width: 10 },
    ],
    rows: rows.map((row) => {
      const state = evidenceState(row, context);
      return {
        cells: [
          [text(row.clause, row.path.length === 0 ? { bold: true } : {})],
          [text(table?.byClause.get(row.clause)?.title ?? '–')],
          [text(applicabilityWords(row.applicable))],
          wordsOf(row),
          evidenceLines(row, context),
          [state === undefined ? text('–') : mark(state)],
          [text(row.method.join(', ') || '–')],
          standardWords(row),
        ],
      };
    }),
  };
};

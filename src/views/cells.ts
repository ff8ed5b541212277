import type { Block, Cell, Inline, RecordReference, Text, Tone } from '../document/model.ts';
import type { Verdict } from '../graph/standing.ts';

/** Small constructors for what views put into cells. */

export const text = (value: string, marks: Omit<Text, 'kind' | 'value'> = {}): Text => ({
  kind: 'text',
  value,
  ...marks,
});

export const reference = (id: string): RecordReference => ({
  kind: 'record-reference',
  id,
});

export const cell = (...children: readonly Inline[]): Cell => ({ children });

export const spanning = (rows: number, ...children: readonly Inline[]): Cell =>
  rows > 1 ? { children, rowSpan: rows } : { children };

/** Several pieces, each on its own line. */
export const onLines = (pieces: readonly (readonly Inline[])[]): readonly Inline[] =>
  pieces.flatMap((piece, index) => (index === 0 ? piece : [{ kind: 'line-break' } as const, ...piece]));

export const references = (ids: readonly string[]): readonly Inline[] =>
  onLines(ids.map((id) => [reference(id)]));

/** What stands where there is nothing: a cell is never blank, so that nobody wonders whether something was forgotten. */
export const nothing = (why = 'none'): Inline => text(why, { tone: 'quiet' });

export const orNothing = (inlines: readonly Inline[], why?: string): readonly Inline[] =>
  inlines.length > 0 ? inlines : [nothing(why)];

const verdictTone: Record<Verdict, Tone> = {
  pass: 'good',
  fail: 'bad',
  undecided: 'caution',
};

export const verdictText = (verdict: Verdict): Text =>
  text(verdict, { bold: true, tone: verdictTone[verdict] });

const standingTone: Record<string, Tone> = {
  passed: 'good',
  failed: 'bad',
  'in doubt': 'caution',
  unplanned: 'bad',
  planned: 'caution',
};

export const standingText = (state: string): Text =>
  text(state, { bold: true, tone: standingTone[state] ?? 'quiet' });

export const notice = (message: string, tone: Tone = 'quiet'): Block => ({
  kind: 'notice',
  tone,
  blocks: [{ kind: 'paragraph', children: [text(message)] }],
});

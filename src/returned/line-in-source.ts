import { plainWords, type SourceUnit, sourceUnits, withoutMark } from './source-units.ts';

/** A paragraph of a compiled document that is looked for in a source file. */
export interface WantedParagraph {
  readonly text: string;
  /** A cell of a table is no heading; a heading and a caption are the text that is set as one, where two read the same. */
  readonly form: 'text' | 'heading' | 'caption' | 'cell';
  /** The words that are marked in it; they decide between the lines of a paragraph. */
  readonly passage?: string;
  /** Texts of the cells of its table row, where it stands in one. */
  readonly row?: readonly string[];
}

/** Shorter passages say too little to be looked for. */
const shortestPassage = 4;

/** The share of a compiled paragraph that the words of its source must make up; what is left are values filled in. */
const leastShare = 0.4;

/** A part of a longer text is its source without doubt from this length on; "Method" stands in many sentences. */
const longEnough = 20;

/** Passages from this length on decide by themselves, where a file holds them once. */
const ownPassage = 12;

interface Likeness {
  readonly unit: SourceUnit;
  /** How many characters of the paragraph the unit explains. */
  readonly explained: number;
  /** Share of the unit in what it explains: 1 where both are the same. */
  readonly closeness: number;
  readonly isStrong: boolean;
}

/** What the compiled text may read in the source: without number, label of a caption, and id of its record. */
const readingsOf = (text: string): readonly string[] => {
  const compiled = plainWords(text).replace(/^(?:table|figure) \d{1,4}: /, '');
  const unnumbered = compiled.replace(/^\d{1,3}(?:\.\d{1,3}){0,6} /, '');
  const withoutId = unnumbered.replace(/^[a-z]{1,6}-\d[a-z0-9.-]{0,30} /, '');
  return [...new Set([compiled, unnumbered, withoutId])].filter((each) => each.length >= shortestPassage);
};

const likeness = (unit: SourceUnit, reading: string): Likeness | undefined => {
  const { whole, words } = unit;
  if (whole.length < shortestPassage) return undefined;
  const closeness = Math.min(whole.length, reading.length) / Math.max(whole.length, reading.length);
  if (whole.includes(reading))
    return {
      unit,
      explained: reading.length,
      closeness,
      isStrong: closeness >= 0.5 || reading.length >= longEnough,
    };
  let at = 0;
  let explained = 0;
  for (const each of words) {
    const found = reading.indexOf(each, at);
    if (found === -1) return undefined;
    at = found + each.length;
    explained += each.length;
  }
  return explained >= leastShare * reading.length
    ? { unit, explained, closeness, isStrong: true }
    : undefined;
};

/** 1 for what is set as the paragraph is: headings come from headings, captions never. */
const preference = ({ kind, isFrontMatter }: SourceUnit, form: WantedParagraph['form']): number => {
  if (form === 'heading') return Number(kind === 'heading');
  if (form === 'caption') return Number(kind !== 'heading' && !isFrontMatter);
  return 0;
};

/** What is like the paragraph, the likest first: longer before shorter, then what is set alike, then nearer in length. */
const likest = (
  units: readonly SourceUnit[],
  wanted: Pick<WantedParagraph, 'text' | 'form'>,
): readonly Likeness[] => {
  const order = (a: Likeness, b: Likeness): number =>
    b.explained - a.explained ||
    preference(b.unit, wanted.form) - preference(a.unit, wanted.form) ||
    b.closeness - a.closeness;
  const readings = readingsOf(wanted.text);
  const found = units.flatMap((unit) => {
    const [best] = readings.flatMap((reading) => likeness(unit, reading) ?? []).sort(order);
    return best ? [best] : [];
  });
  found.sort((a, b) => Number(b.isStrong) - Number(a.isStrong) || order(a, b));
  const [first] = found;
  return first === undefined
    ? []
    : found.filter((each) => each.isStrong === first.isStrong && order(first, each) === 0);
};

/** The line of a unit on which a passage begins, else its first; from 1. */
const lineOfPassage = (unit: SourceUnit, passage: string): number => {
  const lines = unit.lines.map((line) => plainWords(withoutMark(line)));
  const index =
    passage === ''
      ? -1
      : lines.findIndex((line, at) => {
          const follows = lines.slice(at).join(' ').indexOf(passage);
          return follows !== -1 && follows < line.length;
        });
  return unit.firstLine + (index === -1 ? 0 : index) + 1;
};

/** Where a paragraph may have come from. */
export interface SourceHome {
  readonly unit: SourceUnit;
  /** From 1. */
  readonly line: number;
}

/** A file in which lines are looked for. */
export interface SourceText {
  readonly units: readonly SourceUnit[];
  /** Places that hold the paragraph, or its whole row, beyond doubt; several where the same words stand twice. */
  readonly sure: (wanted: WantedParagraph) => readonly SourceHome[];
  /** Lines of a table that are the row of the paragraph. */
  readonly rows: (wanted: WantedParagraph) => readonly SourceHome[];
  /** Places whose text holds the few words of the paragraph, or else of the passage, among others. */
  readonly possible: (wanted: WantedParagraph) => readonly SourceHome[];
  /** The one place that holds a longer passage, where the paragraph itself is not found. */
  readonly byPassage: (wanted: WantedParagraph) => SourceHome | undefined;
}

/** Cuts a file for looking up lines. */
export const readSource = (file: string): SourceText => {
  const units = sourceUnits(file);
  const tableRows = units.filter((unit) => unit.kind === 'row');
  const proseAndData = units.filter((unit) => unit.kind !== 'row');
  const isCellSource = ({ kind, isFrontMatter }: SourceUnit): boolean =>
    kind !== 'heading' && (kind !== 'data' || isFrontMatter);
  const cellSources = units.filter(isCellSource);
  const home = (unit: SourceUnit, { passage = '' }: WantedParagraph): SourceHome => ({
    unit,
    line: lineOfPassage(unit, plainWords(passage)),
  });
  const rows = (wanted: WantedParagraph): readonly SourceHome[] => {
    if (wanted.row === undefined) return [];
    const cells = wanted.row.map(plainWords).filter((cell) => cell !== '');
    return likest(tableRows, { text: cells.join(' '), form: 'cell' })
      .filter(({ isStrong, closeness }) => isStrong && closeness >= 0.5)
      .map(({ unit }) => home(unit, wanted));
  };
  const holding = (passage: string, among = units): readonly SourceUnit[] =>
    passage.length < shortestPassage ? [] : among.filter((unit) => unit.whole.includes(passage));
  return {
    units,
    rows,
    sure: (wanted) => {
      const inRows = rows(wanted);
      if (inRows.length > 0) return inRows;
      return likest(wanted.form === 'cell' ? cellSources : proseAndData, wanted)
        .filter(({ isStrong }) => isStrong)
        .map(({ unit }) => home(unit, wanted));
    },
    possible: (wanted) => {
      const sources = wanted.form === 'cell' ? cellSources.filter(({ kind }) => kind !== 'text') : units;
      const like = likest(sources, wanted).filter(({ isStrong }) => !isStrong);
      const found =
        like.length > 0 ? like.map(({ unit }) => unit) : holding(plainWords(wanted.passage ?? ''), sources);
      return found.map((unit) => home(unit, wanted));
    },
    byPassage: (wanted) => {
      const passage = plainWords(wanted.passage ?? '');
      const [only, another] = passage.length < ownPassage ? [] : holding(passage);
      return only && !another ? home(only, wanted) : undefined;
    },
  };
};

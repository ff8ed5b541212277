import type { SourceHome, SourceText, WantedParagraph } from './line-in-source.ts';
import type { FlowParagraph } from './review-marks.ts';
import type { SourceUnit } from './source-units.ts';

/** Paragraphs walked through in each direction. */
const farthest = 5000;

/** The paragraphs that one file was compiled into, in the order of the document. */
export interface Neighbourhood {
  readonly flow: readonly FlowParagraph[];
  readonly source: SourceText;
  /** Whether a paragraph of the flow came from this file. */
  readonly belongs: (paragraph: FlowParagraph) => boolean;
  /** Whether what is drawn between two paragraphs belongs to the view block that stands there. */
  readonly drawsViews: boolean;
  /** Homes of paragraphs that were looked up before. */
  readonly known: Map<FlowParagraph, SourceHome | 'nowhere'>;
}

export const wantedOf = ({ text, form, row }: FlowParagraph, passage?: string): WantedParagraph => ({
  text,
  form:
    row !== undefined
      ? 'cell'
      : form === 'heading' || form === 'contents'
        ? 'heading'
        : form === 'caption' || /^(?:Table|Figure) \d{1,4}: /.test(text)
          ? 'caption'
          : 'text',
  ...(passage === undefined ? {} : { passage }),
  ...(row === undefined ? {} : { row }),
});

/** A cell of a document's own table is found by its row; other cells are drawn from data, never from running text. */
const sureHomes = (wanted: WantedParagraph, { source, drawsViews }: Neighbourhood): readonly SourceHome[] =>
  source.sure(wanted).filter(({ unit }) => !drawsViews || wanted.form !== 'cell' || unit.kind !== 'text');

/** Where the body of the file says what a paragraph says, beyond doubt. */
const bodyHome = (paragraph: FlowParagraph, around: Neighbourhood): SourceHome | undefined => {
  const { known } = around;
  const before = known.get(paragraph);
  if (before !== undefined) return before === 'nowhere' ? undefined : before;
  const [only, another] = sureHomes(wantedOf(paragraph), around).filter(({ unit }) => !unit.isFrontMatter);
  const home = another ? undefined : only;
  known.set(paragraph, home ?? 'nowhere');
  return home;
};

interface Bounds {
  readonly before?: { readonly home: SourceHome; readonly index: number };
  readonly after?: SourceHome;
  /** Place of the paragraph among those between the bounds that have no words of their own, and their number. */
  readonly place: number;
  readonly among: number;
}

/** What is written around the body: cover, lists of contents, history. Nothing there lies between two paragraphs of the file. */
const isOutside = (paragraph: FlowParagraph, home: SourceHome | undefined): boolean =>
  paragraph.form === 'contents' ||
  paragraph.form === 'part' ||
  (paragraph.form === 'heading' && paragraph.level === 1 && home === undefined);

const boundsOf = (index: number, around: Neighbourhood): Bounds => {
  const { flow, belongs } = around;
  const counts = (paragraph: FlowParagraph): boolean => paragraph.row === undefined && paragraph.text !== '';
  let before: Bounds['before'];
  let after: SourceHome | undefined;
  let place = 0;
  let following = 0;
  for (let at = index - 1; at >= Math.max(0, index - farthest); at -= 1) {
    const paragraph = flow[at];
    if (!paragraph || !belongs(paragraph)) continue;
    const home = bodyHome(paragraph, around);
    if (isOutside(paragraph, home)) break;
    if (home) {
      before = { home, index: at };
      break;
    }
    if (counts(paragraph)) place += 1;
  }
  for (let at = index + 1; at <= Math.min(flow.length - 1, index + farthest); at += 1) {
    const paragraph = flow[at];
    if (!paragraph || !belongs(paragraph)) continue;
    const home = bodyHome(paragraph, around);
    if (isOutside(paragraph, home)) break;
    if (home) {
      after = home;
      break;
    }
    if (counts(paragraph)) following += 1;
  }
  return { ...(before ? { before } : {}), ...(after ? { after } : {}), place, among: place + 1 + following };
};

/** Of several places the one between the neighbours, or next to what the other cells of the row say. */
const nearestOf = (
  homes: readonly SourceHome[],
  bounds: Bounds,
  beside: SourceHome | undefined,
): SourceHome | undefined => {
  const [only, another] = homes;
  if (!another) return only;
  const anchor = beside ?? bounds.before?.home;
  if (!anchor) return only;
  const inOrder = homes.filter(
    ({ line }) => line >= anchor.line && (bounds.after === undefined || line <= bounds.after.line),
  );
  const distance = ({ line }: SourceHome): number => Math.abs(line - anchor.line);
  return [...(inOrder.length > 0 && !beside ? inOrder : homes)].sort((a, b) => distance(a) - distance(b))[0];
};

/**
 * What another cell of the row says beyond doubt. In a table over many records a row says many things; in one of names
 * and values the value tells where its name belongs.
 */
const besideInRow = (
  paragraph: FlowParagraph,
  around: Neighbourhood,
  isPossible: (home: SourceHome) => boolean,
): SourceHome | undefined => {
  if (!around.drawsViews && paragraph.row?.length !== 2) return undefined;
  for (const cell of paragraph.row ?? []) {
    if (cell === '' || cell === paragraph.text) continue;
    const [only, another] = sureHomes({ text: cell, form: 'cell' }, around).filter(isPossible);
    if (only && !another) return only;
  }
  return undefined;
};

const isWithin = ({ firstLine }: SourceUnit, { before, after }: Bounds): boolean =>
  (before === undefined || firstLine >= before.home.unit.firstLine) &&
  (after === undefined || firstLine <= after.unit.firstLine);

const holds = (view: SourceUnit, { unit }: SourceHome): boolean =>
  unit.firstLine > view.firstLine && unit.firstLine < view.firstLine + view.lines.length;

/** The stretch of the source between the neighbours: a paragraph that is filled in as a whole, or a view block. */
const gap = (paragraph: FlowParagraph, bounds: Bounds, around: Neighbourhood): SourceHome | undefined => {
  const { before, after, place, among } = bounds;
  if (!before) return undefined;
  const { units } = around.source;
  const last = before.home.unit;
  const between = units.filter(
    (unit) =>
      !unit.isFrontMatter &&
      unit.kind !== 'data' &&
      unit.firstLine > last.firstLine &&
      (after === undefined || unit.firstLine < after.unit.firstLine),
  );
  const views = units.filter((unit) => unit.kind === 'view');
  const open = views.find((view) => holds(view, before.home));
  const home = (unit: SourceUnit): SourceHome => ({ unit, line: unit.firstLine + 1 });
  if (open && around.drawsViews && (paragraph.row !== undefined || between.length === 0)) return home(open);
  // A view draws tables; a paragraph that is filled in never is one.
  const filled = between.filter(({ kind, words }) =>
    kind === 'view' ? around.drawsViews : words.join('').length < 4 && paragraph.row === undefined,
  );
  if (filled.length > 0) return home(filled[Math.min(place, filled.length - 1)] ?? last);
  const [only, another] = between;
  if (only && !another && among === 1 && paragraph.row === undefined) return home(only);
  if (after && around.drawsViews) {
    const drawn = views.find((view) => holds(view, after));
    if (drawn) return home(drawn);
  }
  return undefined;
};

/** The line of a file from which a paragraph of the flow came, by its own words and by those around it; from 1. */
export const lineByNeighbours = (
  index: number,
  passage: string,
  around: Neighbourhood,
): number | undefined => {
  const { flow, source, belongs, drawsViews } = around;
  const paragraph = flow[index];
  if (!paragraph) return undefined;
  if (paragraph.text === '') {
    // Inserted: it belongs where the paragraph before it stands.
    for (let at = index - 1; at >= Math.max(0, index - farthest); at -= 1) {
      const earlier = flow[at];
      if (earlier && belongs(earlier) && earlier.text !== '') return lineByNeighbours(at, '', around);
    }
    return undefined;
  }
  // Titles that no source has.
  if (paragraph.form === 'part') return undefined;
  const wanted = wantedOf(paragraph, passage);
  const first = sureHomes(wanted, around);
  if (first.length === 1 && (!drawsViews || first[0]?.unit.isFrontMatter === false)) return first[0]?.line;
  // The history of a document; views draw headings below those of the document.
  if (drawsViews && paragraph.level === 1 && first.length === 0) return undefined;
  const bounds = boundsOf(index, around);
  // Between two paragraphs of the body nothing is drawn from the document's own front matter.
  const isPossible = ({ unit }: SourceHome): boolean =>
    !drawsViews || (bounds.before === undefined ? true : !unit.isFrontMatter && isWithin(unit, bounds));
  const sure = first.filter(isPossible);
  const beside = besideInRow(paragraph, around, isPossible);
  if (sure.length > 0) return nearestOf(sure, bounds, beside)?.line;
  const byPassage = source.byPassage(wanted);
  if (byPassage && isPossible(byPassage)) return byPassage.line;
  const possible = source.possible(wanted).filter(isPossible);
  if (beside) return (possible.find(({ line }) => line === beside.line) ?? beside).line;
  if (drawsViews && bounds.before === undefined) return undefined;
  if (drawsViews || possible.length === 1) {
    const between = possible.filter(({ unit }) => unit.firstLine !== bounds.after?.unit.firstLine);
    const found = nearestOf(drawsViews ? between : possible, bounds, undefined);
    if (found) return found.line;
  }
  return gap(paragraph, bounds, around)?.line;
};

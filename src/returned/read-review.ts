import { type CommentText, readCommentTexts, readCommentThreads } from './comment-texts.ts';
import { followRecords } from './record-position.ts';
import type {
  ChangeKind,
  FlowParagraph,
  MarkPlace,
  Nearness,
  ReviewerComment,
  ReviewMark,
  TrackedChange,
} from './review-marks.ts';
import type { WordPackage } from './word-package.ts';
import { type OpenedElement, readXml } from './xml-events.ts';

/** A mark while the document is read: its parts become known one after the other. */
interface OpenMark {
  bookmark?: string;
  nearness: Nearness;
  /** The paragraph of its first words, among those of its part. */
  flow: { readonly paragraphs: readonly OpenParagraph[]; readonly index: number } | undefined;
}

interface OpenParagraph {
  text: string;
  form: FlowParagraph['form'];
  level?: number;
  bookmark?: string;
  nearness: Nearness;
  readonly row?: string[];
}

interface OpenChange extends OpenMark {
  readonly kind: 'change';
  readonly change: ChangeKind;
  readonly author: string;
  readonly date?: string;
  text: string;
  /** How many signs of text had been read when it ended: nothing between means adjacent. */
  end: number;
}

interface OpenComment extends OpenMark {
  readonly kind: 'comment';
  readonly id: string;
  passage: string;
}

const wrappers: ReadonlyMap<string, ChangeKind> = new Map([
  ['ins', 'inserted'],
  ['del', 'deleted'],
  ['moveFrom', 'moved away'],
  ['moveTo', 'moved here'],
]);

/** Changes of form are marked where the earlier form is kept. */
const formatChanges = new Set([
  'rPrChange',
  'pPrChange',
  'tblPrChange',
  'trPrChange',
  'tcPrChange',
  'sectPrChange',
]);

/** Parts with running text, in the order in which they are read. */
const parts = ['word/document.xml', 'word/footnotes.xml', 'word/endnotes.xml'];

/**
 * The comments and tracked changes of a Word file in the order of its text. Throws `XmlFault` where a part is not XML.
 * Tracked changes of one kind by one author that touch each other are one change.
 */
export const readReview = (file: WordPackage): readonly ReviewMark[] => {
  const texts = readCommentTexts(file.part('word/comments.xml') ?? '<none/>');
  const threads = readCommentThreads(file.part('word/commentsExtended.xml') ?? '<none/>');
  const marks = parts.flatMap((part) => {
    const xml = file.part(part);
    return xml === undefined ? [] : readMarks(xml);
  });
  const byId = new Map(texts.map((text) => [text.id, text]));
  const placed = new Set(marks.flatMap((mark) => (mark.kind === 'comment' ? [mark.id] : [])));
  // A comment that no text refers to any more is still somebody's word.
  const lost = texts.filter((text) => !placed.has(text.id));
  const all: readonly (OpenChange | OpenComment)[] = [
    ...marks,
    ...lost.map(
      (text): OpenComment => ({
        kind: 'comment',
        id: text.id,
        passage: '',
        nearness: 'none',
        flow: undefined,
      }),
    ),
  ];
  return all.flatMap((mark): readonly ReviewMark[] =>
    mark.kind === 'change' ? [finishedChange(mark)] : finishedComment(mark, byId, texts, threads),
  );
};

const placeOfMark = ({ bookmark, nearness, flow }: OpenMark): MarkPlace => ({
  ...(bookmark === undefined ? {} : { bookmark }),
  nearness,
  paragraph: flow?.paragraphs[flow.index]?.text ?? '',
  ...(flow === undefined ? {} : { flow }),
});

const singleBlanks = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** The styles that Plinth writes; a house style keeps their ids. */
const formOf = (style: string): Pick<FlowParagraph, 'form' | 'level'> => {
  const [, level] = /^Heading([1-9])$/i.exec(style) ?? [];
  if (level !== undefined) return { form: 'heading', level: Number(level) };
  if (/^(?:TOC[1-9]|TableofFigures)$/i.test(style)) return { form: 'contents' };
  if (/^Caption$/i.test(style)) return { form: 'caption' };
  return { form: style === 'PartTitle' ? 'part' : 'text' };
};

const finishedChange = (mark: OpenChange): TrackedChange => ({
  kind: 'change',
  change: mark.change,
  author: mark.author,
  ...(mark.date === undefined ? {} : { date: mark.date }),
  // The writer kept numbers and units together; the author's blank is an ordinary one.
  text: mark.text.replaceAll('\u00a0', ' '),
  place: placeOfMark(mark),
});

/** The comment with its replies; nothing for a reply, which stands under the comment that it answers. */
const finishedComment = (
  mark: OpenComment,
  byId: ReadonlyMap<string, CommentText>,
  texts: readonly CommentText[],
  threads: ReturnType<typeof readCommentThreads>,
): readonly ReviewerComment[] => {
  const own = byId.get(mark.id);
  if (!own) return [];
  const thread = threads.get(own.paragraph ?? '');
  const isThere = (name: string): boolean => texts.some((text) => text.paragraph === name);
  if (thread?.answers !== undefined && isThere(thread.answers)) return [];
  const replies = texts.filter(
    (text) =>
      text.id !== own.id &&
      own.paragraph !== undefined &&
      threads.get(text.paragraph ?? '')?.answers === own.paragraph,
  );
  const note = ({ author, date, text }: CommentText) => ({
    author,
    ...(date === undefined ? {} : { date }),
    text,
  });
  return [
    {
      kind: 'comment',
      ...note(own),
      passage: mark.passage.replace(/\s+/g, ' ').trim(),
      resolved: thread?.resolved ?? false,
      replies: replies.map(note),
      place: placeOfMark(mark),
    },
  ];
};

const readMarks = (xml: string): readonly (OpenChange | OpenComment)[] => {
  const marks: (OpenChange | OpenComment)[] = [];
  const position = followRecords();
  const path: string[] = [];
  const openChanges: OpenChange[] = [];
  const openComments = new Map<string, OpenComment>();
  const paragraphs: OpenParagraph[] = [];
  /** Paragraphs that are open, the innermost last: a text box stands within one. */
  const openParagraphs: OpenParagraph[] = [];
  const rows: string[][] = [];
  /** Marks whose first words have not come yet: the record of these words counts, not that of the range's start. */
  const unsettled = new Set<OpenMark>();
  let signs = 0;
  let skipped = 0;
  let pendingForm: OpenChange | undefined;

  const ask = (mark: { bookmark?: string; nearness: Nearness }): void =>
    position.ask((bookmark, nearness) => {
      if (bookmark !== undefined) mark.bookmark = bookmark;
      mark.nearness = nearness;
    });

  const settle = (mark: OpenMark): void => {
    if (!unsettled.delete(mark)) return;
    const innermost = openParagraphs.at(-1);
    const index = innermost ? paragraphs.lastIndexOf(innermost) : paragraphs.length - 1;
    if (index >= 0) mark.flow = { paragraphs, index };
    ask(mark);
  };

  const asked = <Mark extends OpenMark>(mark: Mark): Mark => {
    unsettled.add(mark);
    return mark;
  };

  const changeFrom = (change: ChangeKind, { attribute }: OpenedElement): OpenChange => {
    const author = attribute('author') ?? 'unnamed';
    const date = attribute('date');
    const last = marks.at(-1);
    if (last?.kind === 'change' && last.change === change && last.author === author && last.end === signs)
      return last;
    const made = asked<OpenChange>({
      kind: 'change',
      change,
      author,
      ...(date === undefined ? {} : { date }),
      text: '',
      end: signs,
      nearness: 'none',
      flow: undefined,
    });
    marks.push(made);
    return made;
  };

  const commentAt = (id: string): OpenComment => {
    const known = marks.find((mark): mark is OpenComment => mark.kind === 'comment' && mark.id === id);
    if (known) return known;
    const made = asked<OpenComment>({ kind: 'comment', id, passage: '', nearness: 'none', flow: undefined });
    marks.push(made);
    return made;
  };

  const addText = (text: string): void => {
    signs += text.length;
    const innermost = openChanges.at(-1);
    const paragraph = openParagraphs.at(-1);
    if (paragraph) {
      if (paragraph.text.trim() === '' && text.trim() !== '') ask(paragraph);
      if (innermost?.change !== 'inserted' && innermost?.change !== 'moved here') paragraph.text += text;
    }
    if (text.trim() !== '') for (const mark of [...unsettled]) settle(mark);
    for (const comment of openComments.values()) comment.passage += text;
    for (const change of openChanges) {
      change.text += text;
      change.end = signs;
    }
    if (pendingForm) {
      pendingForm.text += text;
      pendingForm.end = signs;
    }
  };

  let instruction = '';
  const opened = (element: OpenedElement): void => {
    const { name, attribute } = element;
    const parent = path.at(-1);
    path.push(name);
    // Drawings carry their text twice; the second is for old programs.
    if (name === 'Fallback') skipped += 1;
    if (skipped > 0) return;
    const wrapper = wrappers.get(name);
    if (name === 'p') {
      const row = rows.at(-1);
      const made: OpenParagraph = {
        text: '',
        form: 'text',
        nearness: 'none',
        ...(row ? { row } : {}),
      };
      paragraphs.push(made);
      openParagraphs.push(made);
      for (const comment of openComments.values()) if (comment.passage !== '') comment.passage += ' ';
    } else if (name === 'pStyle') {
      // Not that of an earlier form, which a tracked change keeps.
      if (path.at(-3) === 'p') Object.assign(openParagraphs.at(-1) ?? {}, formOf(attribute('val') ?? ''));
    } else if (name === 'tr') {
      rows.push([]);
      position.rowStarts();
    } else if (name === 'tc') {
      rows.at(-1)?.push('');
      position.cellStarts();
    } else if (name === 'bookmarkStart')
      position.bookmarkStarts(attribute('id') ?? '', attribute('name') ?? '');
    else if (name === 'bookmarkEnd') position.bookmarkEnds(attribute('id') ?? '');
    else if (name === 'hyperlink') position.linkTo(attribute('anchor') ?? '');
    else if (name === 'commentRangeStart')
      openComments.set(attribute('id') ?? '', commentAt(attribute('id') ?? ''));
    else if (name === 'commentRangeEnd') {
      settle(commentAt(attribute('id') ?? ''));
      openComments.delete(attribute('id') ?? '');
    } else if (name === 'commentReference') settle(commentAt(attribute('id') ?? ''));
    else if (name === 'tab' || name === 'br' || name === 'cr') {
      if (parent === 'r') addText(' ');
    } else if (wrapper !== undefined) {
      if (parent === 'trPr') changeFrom(wrapper === 'deleted' ? 'row deleted' : 'row inserted', element);
      else if (parent === 'rPr') changeFrom(wrapper, element);
      else openChanges.push(changeFrom(wrapper, element));
    } else if (formatChanges.has(name)) {
      const change = changeFrom('formatted', element);
      // The form of a run is told before its text.
      if (name === 'rPrChange' && path.at(-3) === 'r') pendingForm = change;
    }
  };

  const endParagraph = (): void => {
    const paragraph = openParagraphs.at(-1);
    if (!paragraph) return;
    // A range that begins at the end of a paragraph goes on; all else that found no words stands here.
    const goingOn = new Set<OpenMark>(openComments.values());
    for (const mark of [...unsettled]) if (!goingOn.has(mark)) settle(mark);
    if (paragraph.text.trim() === '') ask(paragraph);
    paragraph.text = singleBlanks(paragraph.text);
    const row = rows.at(-1);
    if (row && row.length > 0) row[row.length - 1] = singleBlanks(`${row.at(-1)} ${paragraph.text}`);
    openParagraphs.pop();
  };

  const closed = (name: string): void => {
    const parent = path.at(-2);
    path.pop();
    if (name === 'Fallback') skipped -= 1;
    if (skipped > 0) return;
    if (name === 'tr') {
      rows.pop();
      position.rowEnds();
    } else if (name === 'p') endParagraph();
    else if (name === 'r') pendingForm = undefined;
    else if (name === 'instrText') {
      // LibreOffice writes a link to a place in another file as a field: HYPERLINK "other.docx" \\l "rec_RC_01".
      const [, anchor] = /\bHYPERLINK\b[^\\]{0,2000}\\l\s{1,5}"([^"]{1,200})"/.exec(instruction) ?? [];
      if (anchor !== undefined) position.linkTo(anchor);
      instruction = '';
    } else if (wrappers.get(name) !== undefined && parent !== 'trPr' && parent !== 'rPr') openChanges.pop();
  };

  readXml(xml, {
    open: opened,
    close: closed,
    text: (text) => {
      const inner = path.at(-1);
      if (skipped === 0 && (inner === 't' || inner === 'delText')) addText(text);
      else if (skipped === 0 && inner === 'instrText') instruction += text;
    },
  });
  for (const mark of [...unsettled]) settle(mark);
  return marks;
};

import type { LocatedMark } from '../returned/locate-mark.ts';
import type { ReviewMark } from '../returned/review-marks.ts';
import { printable } from '../writers/report-text/printable.ts';
import { wrap } from './wrap.ts';

/** What a returned file holds, traced to records. */
export interface ReturnedReview {
  readonly file: string;
  /** Number and revision of the document, where the file says it. */
  readonly document: string | undefined;
  readonly record: string | undefined;
  readonly marks: readonly LocatedMark[];
}

/** A comment that is resolved asks for nothing; a tracked change always wants to be taken over or refused. */
export const isOpen = (mark: ReviewMark): boolean => mark.kind === 'change' || !mark.resolved;

/** Longer texts are cut in the text report; JSON has them whole. */
const longestQuote = 300;

const quoted = (text: string): string => {
  const clean = printable(text).trim();
  return `"${clean.length > longestQuote ? `${clean.slice(0, longestQuote)} …` : clean}"`;
};

const dayOf = (date: string | undefined): string => (date === undefined ? 'undated' : date.slice(0, 10));

const counts = (marks: readonly LocatedMark[]): string => {
  const comments = marks.filter(({ mark }) => mark.kind === 'comment');
  const open = comments.filter(({ mark }) => isOpen(mark)).length;
  const changes = marks.length - comments.length;
  const plural = (count: number, word: string) => `${count} ${word}${count === 1 ? '' : 's'}`;
  return `${plural(comments.length, 'comment')}, ${open} of them open; ${plural(changes, 'tracked change')}`;
};

/** The review as text: by record in the order of the file, each with its place, author and day. */
export const commentsText = (review: ReturnedReview, width: number): string => {
  const line = (text: string, indent = ''): string => `${wrap(text, width, `${indent}  `, indent)}\n`;
  const name = [review.record, review.document].filter((part) => part !== undefined).join(', ');
  const parts = review.marks.flatMap(({ mark, record, place }, index) => {
    const before = review.marks[index - 1];
    const heading =
      index === 0 || before?.record !== record || before?.place?.line !== place?.line
        ? [
            '\n',
            line(
              record === undefined
                ? 'Belongs to no record that the file has'
                : `${record} ${place ? `${place.file}:${place.line}` : ''}`,
            ),
          ]
        : [];
    const by = `${printable(mark.author)}, ${dayOf(mark.date)}`;
    if (mark.kind === 'change')
      return [
        ...heading,
        line(
          `${mark.change}: ${mark.text === '' ? 'form or paragraph only' : quoted(mark.text)} (${by})`,
          '  ',
        ),
      ];
    return [
      ...heading,
      line(`comment, ${mark.resolved ? 'resolved' : 'open'} (${by}): ${printable(mark.text)}`, '  '),
      ...(mark.passage === '' ? [] : [line(`on ${quoted(mark.passage)}`, '    ')]),
      ...mark.replies.map((reply) =>
        line(`reply (${printable(reply.author)}, ${dayOf(reply.date)}): ${printable(reply.text)}`, '    '),
      ),
    ];
  });
  return [
    line(`Review of ${printable(review.file)}${name === '' ? '' : ` (${printable(name)})`}`),
    ...parts,
    '\n',
    line(`${counts(review.marks)}.`),
  ].join('');
};

/** The review for programs. The version is in its field `version`. */
export const commentsJson = (review: ReturnedReview): unknown => ({
  version: 1,
  kind: 'returned-review',
  file: review.file,
  ...(review.record === undefined ? {} : { record: review.record }),
  ...(review.document === undefined ? {} : { document: review.document }),
  marks: review.marks.map(({ mark, record, place }) => {
    const { place: position, ...rest } = mark;
    return {
      ...rest,
      open: isOpen(mark),
      ...(record === undefined ? {} : { record }),
      ...(place === undefined ? {} : { place: { file: place.file, line: place.line } }),
      paragraph: position.paragraph,
    };
  }),
});

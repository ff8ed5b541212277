import type { Explanation } from '../findings/explanation.ts';
import type { Finding } from '../findings/finding.ts';
import type { LocatedMark } from './locate-mark.ts';
import type { ReviewMark } from './review-marks.ts';

/** What a returned Word file asks for, as findings, so that every form of the report can carry it. */
export const reviewCodes = {
  'reviewer-comment': {
    title: 'A reviewer commented on a record',
    level: 'warning',
    explain:
      'A Word file that came back holds a comment that is not resolved. It was traced to the record beside which it stands, and to the line with the words that it is on, where the record still has them.\n\nAnswer it: change the record, or reply in the file why not, and mark the comment as resolved there.',
  },
  'tracked-change': {
    title: 'A reviewer changed the text of a document',
    level: 'warning',
    explain:
      'A Word file that came back holds a tracked change. Documents are compiled from records, so a change in the file alone is lost with the next build.\n\nTake it over into the record at the line shown, or refuse it, and have the record approved again.',
  },
} as const satisfies Record<string, Explanation>;

const cut = (text: string): string => (text.length > 160 ? `${text.slice(0, 160)} …` : text);

const messageOf = (mark: ReviewMark): string => {
  const by = `${mark.author}${mark.date === undefined ? '' : `, ${mark.date.slice(0, 10)}`}`;
  if (mark.kind === 'change')
    return `${mark.change} by ${by}${mark.text === '' ? '' : `: "${cut(mark.text)}"`}`;
  const on = mark.passage === '' ? '' : ` on "${cut(mark.passage)}"`;
  return `comment by ${by}${on}: ${cut(mark.text)}`;
};

/**
 * A finding for each open mark, at its line. One that could not be traced home stands at the head of plinth.yaml, so
 * that it is not lost.
 */
export const reviewFindings = (marks: readonly LocatedMark[]): readonly Finding[] =>
  marks.flatMap(({ mark, record, place }): readonly Finding[] => {
    if (mark.kind === 'comment' && mark.resolved) return [];
    const code = mark.kind === 'comment' ? 'reviewer-comment' : 'tracked-change';
    return [
      {
        code,
        level: reviewCodes[code].level,
        place: place ?? { file: 'plinth.yaml', line: 1, column: 1 },
        message: messageOf(mark).replace(/\s+/g, ' '),
        hint:
          mark.kind === 'comment'
            ? 'Change the record or answer the comment, then mark it as resolved in the file.'
            : 'Take the change over into the record, or refuse it.',
        records: record === undefined ? [] : [record],
        related: [],
      },
    ];
  });

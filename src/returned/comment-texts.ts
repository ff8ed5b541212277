import type { ReviewerNote } from './review-marks.ts';
import { readXml } from './xml-events.ts';

/** One comment of the part `word/comments.xml`. */
export interface CommentText extends ReviewerNote {
  readonly id: string;
  /** Name of its last paragraph, by which replies and the resolved mark refer to it. */
  readonly paragraph?: string;
}

/** Whether a comment is resolved and what it answers, from `word/commentsExtended.xml`. */
export interface CommentThread {
  readonly resolved: boolean;
  /** Paragraph name of the comment that this one answers. */
  readonly answers?: string;
}

/** Comments in the order of the file. */
export const readCommentTexts = (xml: string): readonly CommentText[] => {
  const comments: CommentText[] = [];
  let open: { id: string; author: string; date?: string; paragraphs: string[]; name?: string } | undefined;
  let inText = 0;
  readXml(xml, {
    open: ({ name, attribute }) => {
      if (name === 'comment') {
        const date = attribute('date');
        open = {
          id: attribute('id') ?? '',
          author: attribute('author') ?? 'unnamed',
          ...(date === undefined ? {} : { date }),
          paragraphs: [],
        };
      } else if (open && name === 'p') {
        open.paragraphs.push('');
        const paragraph = attribute('paraId');
        if (paragraph !== undefined) open.name = paragraph.toUpperCase();
      } else if (open && name === 't') inText += 1;
      else if (open && (name === 'br' || name === 'tab')) append(open.paragraphs, ' ');
    },
    close: (name) => {
      if (name === 't' && inText > 0) inText -= 1;
      if (name === 'comment' && open) {
        const { paragraphs, name: paragraph, ...rest } = open;
        comments.push({
          ...rest,
          text: paragraphs.join('\n').trim(),
          ...(paragraph === undefined ? {} : { paragraph }),
        });
        open = undefined;
      }
    },
    text: (text) => {
      if (open && inText > 0) append(open.paragraphs, text);
    },
  });
  return comments;
};

const append = (paragraphs: string[], text: string): void => {
  if (paragraphs.length === 0) paragraphs.push('');
  paragraphs[paragraphs.length - 1] += text;
};

/** Threads by the name of the comment's last paragraph. */
export const readCommentThreads = (xml: string): ReadonlyMap<string, CommentThread> => {
  const threads = new Map<string, CommentThread>();
  readXml(xml, {
    open: ({ name, attribute }) => {
      const paragraph = attribute('paraId');
      if (name !== 'commentEx' || paragraph === undefined) return;
      const answers = attribute('paraIdParent');
      threads.set(paragraph.toUpperCase(), {
        resolved: ['1', 'true', 'on'].includes(attribute('done') ?? '0'),
        ...(answers === undefined ? {} : { answers: answers.toUpperCase() }),
      });
    },
  });
  return threads;
};

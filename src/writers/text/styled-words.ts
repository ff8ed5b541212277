import stringWidth from 'string-width';
import { crossReferenceLabel } from '../../document/document-text.ts';
import type { Inline, Text } from '../../document/model.ts';
import type { Targets } from '../../document/numbering.ts';
import { printable } from '../report-text/printable.ts';

/** How a terminal may show a word. */
export type Style = 'good' | 'bad' | 'caution' | 'quiet' | 'strong' | 'plain';

/** A word that is not broken unless it is wider than the room, with what glues it to the one before. */
export interface Word {
  readonly text: string;
  readonly style: Style;
  /** No blank stands before it. */
  readonly isGlued: boolean;
}

const styleOf = ({ tone, bold }: Text): Style => tone ?? (bold ? 'strong' : 'plain');

/** Marks for what only type can show otherwise. */
const marked = ({ value, strike, inserted }: Text): string =>
  value.trim() === '' ? value : strike ? `[-${value}-]` : inserted ? `[+${value}+]` : value;

/** Running text as lines of words, cut where the document breaks a line. Texts are made safe for a terminal. */
export const wordsOf = (children: readonly Inline[], targets: Targets): readonly (readonly Word[])[] => {
  const lines: Word[][] = [[]];
  let isGlued = true;
  const add = (value: string, style: Style): void => {
    for (const [index, part] of value.split(/(\s+)/).entries()) {
      if (part === '') continue;
      if (index % 2 === 1) {
        isGlued = false;
        continue;
      }
      lines.at(-1)?.push({ text: printable(part), style, isGlued });
      isGlued = true;
    }
  };
  const newLine = (): void => {
    lines.push([]);
    isGlued = true;
  };
  const walk = (inline: Inline): void => {
    switch (inline.kind) {
      case 'text':
        for (const [index, line] of marked(inline)
          .split(/\r\n|\n|\r/)
          .entries()) {
          if (index > 0) newLine();
          add(line, styleOf(inline));
        }
        break;
      case 'record-reference':
        add(inline.id, 'plain');
        break;
      case 'external-link':
        for (const child of inline.children) walk(child);
        add(` <${inline.target}>`, 'quiet');
        break;
      case 'file-link':
        for (const child of inline.children) walk(child);
        break;
      case 'cross-reference':
        if (inline.children) for (const child of inline.children) walk(child);
        else add(crossReferenceLabel(inline.anchor, targets), 'plain');
        break;
      case 'line-break':
        newLine();
        break;
      case 'footnote-reference':
        add(`[${inline.index + 1}]`, 'quiet');
        break;
    }
  };
  for (const child of children) walk(child);
  return lines;
};

/** A line of a terminal: words, and how many columns they take. */
export interface Line {
  readonly words: readonly Word[];
  readonly width: number;
}

/** Cuts a word that is wider than the room. */
const pieces = (word: Word, room: number): readonly Word[] => {
  if (stringWidth(word.text) <= room) return [word];
  const parts: Word[] = [];
  let text = '';
  for (const character of word.text) {
    if (text !== '' && stringWidth(text + character) > room) {
      parts.push({ ...word, text, isGlued: parts.length === 0 ? word.isGlued : false });
      text = '';
    }
    text += character;
  }
  parts.push({ ...word, text, isGlued: parts.length === 0 ? word.isGlued : false });
  return parts;
};

/** Breaks lines of words so that none is wider than `room` columns. Words that are glued together stay together where they can. */
export const foldWords = (lines: readonly (readonly Word[])[], room: number): readonly Line[] =>
  lines.flatMap((words): readonly Line[] => {
    const folded: { words: Word[]; width: number }[] = [{ words: [], width: 0 }];
    const groups: Word[][] = [];
    for (const word of words) {
      const last = groups.at(-1);
      if (word.isGlued && last) last.push(word);
      else groups.push([word]);
    }
    const put = (group: readonly Word[]): void => {
      const width = group.reduce((sum, word) => sum + stringWidth(word.text), 0);
      const line = folded.at(-1) as { words: Word[]; width: number };
      // A piece of a word that was cut is glued to the one before it.
      const gap = line.words.length === 0 || group[0]?.isGlued ? 0 : 1;
      if (line.width + gap + width <= room || line.words.length === 0) {
        line.words.push(...group);
        line.width += gap + width;
      } else folded.push({ words: [...group], width });
    };
    for (const group of groups) {
      const width = group.reduce((sum, word) => sum + stringWidth(word.text), 0);
      if (width <= room) put(group);
      // Too wide as a whole: each of its words by itself, and those that are too wide cut.
      else for (const word of group) for (const piece of pieces(word, room)) put([piece]);
    }
    return folded;
  });

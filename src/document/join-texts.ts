import type { Inline, Text } from './model.ts';

const marks = ['bold', 'italic', 'strike', 'inserted', 'code', 'tone'] as const;

const looksAlike = (a: Text, b: Text): boolean => marks.every((mark) => a[mark] === b[mark]);

/** Neighbouring texts of one look as one: what is compiled from Markdown or from fields comes in pieces. */
export const joinTexts = (children: readonly Inline[]): readonly Inline[] => {
  if (children.length < 2) return children;
  const result: Inline[] = [];
  for (const child of children) {
    const last = result.at(-1);
    if (child.kind === 'text' && last?.kind === 'text' && looksAlike(child, last))
      result[result.length - 1] = { ...last, value: last.value + child.value };
    else result.push(child);
  }
  return result;
};

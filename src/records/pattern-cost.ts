/** Longest text that a pattern of a schema is tried on, in characters. A longer one does not match. */
export const longestPatternText = 400;

/** Steps that matching may take at worst; more than this is felt as a stop. */
export const highestPatternCost = 1e8;

interface Part {
  /** Ways in which the part can match. */
  readonly ways: number;
  readonly end: number;
}

const hasVariableCount = (min: number, max: number): boolean => max > min;

/**
 * Upper bound of the ways in which a backtracking matcher can try a pattern of a user's schema on a text of 400
 * characters; Infinity where the pattern uses what makes no bound possible: look-around, references to groups, or
 * repetition within repetition. A schema is untrusted, and `(a+)+$` would hang the tool.
 */
export const patternCost = (pattern: string): number => {
  if (pattern.length > 300) return Number.POSITIVE_INFINITY;
  const sequence = parseAlternatives(pattern, 0, 0);
  if (sequence === undefined || sequence.end !== pattern.length) return Number.POSITIVE_INFINITY;
  // Without ^ the matcher starts anew at every character.
  const starts = pattern.startsWith('^') && !pattern.includes('|') ? 1 : longestPatternText;
  return sequence.ways * starts;
};

const parseAlternatives = (pattern: string, from: number, depth: number): Part | undefined => {
  if (depth > 10) return undefined;
  let ways = 0;
  let own = 1;
  let at = from;
  while (at < pattern.length && pattern[at] !== ')') {
    if (pattern[at] === '|') {
      ways += own;
      own = 1;
      at += 1;
      continue;
    }
    const piece = parsePiece(pattern, at, depth);
    if (!piece) return undefined;
    own *= piece.ways;
    at = piece.end;
  }
  return { ways: ways + own, end: at };
};

const parsePiece = (pattern: string, from: number, depth: number): Part | undefined => {
  const atom = parseAtom(pattern, from, depth);
  if (!atom) return undefined;
  const count = /^(?:[*+?]|\{(\d{1,4})(,?)(\d{0,4})\})\??/.exec(pattern.slice(atom.end));
  if (!count) return atom;
  const sign = count[0][0];
  const min = sign === '{' ? Number(count[1]) : sign === '+' ? 1 : 0;
  const max =
    sign === '?'
      ? 1
      : sign === '{' && count[2] === ''
        ? min
        : sign === '{' && count[3] !== ''
          ? Number(count[3])
          : longestPatternText;
  const end = atom.end + count[0].length;
  if (atom.ways === 1) return { ways: hasVariableCount(min, max) ? max - min + 1 : 1, end };
  // A group that can itself match in several ways: every turn multiplies them.
  const ways = atom.ways ** Math.max(1, max) * (max - min + 1);
  return { ways, end };
};

const parseAtom = (pattern: string, from: number, depth: number): Part | undefined => {
  const sign = pattern[from] ?? '';
  if (sign === '(') {
    if (pattern[from + 1] === '?' && pattern[from + 2] !== ':') return undefined;
    const inner = parseAlternatives(pattern, from + (pattern[from + 1] === '?' ? 3 : 1), depth + 1);
    return inner && pattern[inner.end] === ')' ? { ways: inner.ways, end: inner.end + 1 } : undefined;
  }
  if (sign === '[') {
    let end = from + 1;
    while (end < pattern.length && pattern[end] !== ']') end += pattern[end] === '\\' ? 2 : 1;
    return end < pattern.length ? { ways: 1, end: end + 1 } : undefined;
  }
  if (sign === '\\') {
    const next = pattern[from + 1] ?? '';
    if (next === '' || /[1-9k]/.test(next)) return undefined;
    const named = /^\\[pP]\{[A-Za-z_=]{1,40}\}/.exec(pattern.slice(from));
    return { ways: 1, end: from + (named?.[0].length ?? 2) };
  }
  return /[*+?{]/.test(sign) ? undefined : { ways: 1, end: from + 1 };
};

import { longestPatternText } from './pattern-cost.ts';

/** A pattern that gives up on long texts, so that none can take for ever. `code` is how a validator's own text names it. */
export const boundedPattern = Object.assign(
  (pattern: string, flags: string): Pick<RegExp, 'test'> => {
    const compiled = new RegExp(pattern, flags);
    const bounded = {
      test: (text: string) => text.length <= longestPatternText && compiled.test(text),
      // The validator tells patterns apart by their text.
      toString: () => compiled.toString(),
    };
    return bounded;
  },
  { code: 'require("./bounded-pattern.ts").boundedPattern' },
);

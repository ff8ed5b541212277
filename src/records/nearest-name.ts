import { closest, distance } from 'fastest-levenshtein';

/** The nearest known name, where it is near enough to be a slip of the pen. */
export const nearestName = (name: string, known: readonly string[]): string | undefined => {
  if (known.length === 0) return undefined;
  const best = closest(name, [...known]);
  return distance(name, best) <= Math.max(2, Math.floor(name.length / 3)) ? best : undefined;
};

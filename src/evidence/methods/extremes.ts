/** Smallest and largest of values; undefined where there are none. Unlike Math.min, it takes any number of them. */
export const extremesOf = (
  values: readonly number[],
): { readonly smallest: number; readonly largest: number } | undefined => {
  let smallest = Number.POSITIVE_INFINITY;
  let largest = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < smallest) smallest = value;
    if (value > largest) largest = value;
  }
  return values.length === 0 ? undefined : { smallest, largest };
};

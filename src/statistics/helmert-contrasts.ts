/**
 * Independent differences within groups of readings of the same thing: for the j-th reading of a group, (sum of those before
 * it - (j - 1) times it) / sqrt(j (j - 1)), j from 2 on. For independent normal readings with one standard deviation they
 * are independent and normal with mean 0 and that standard deviation, whatever the means of the groups, so that a test of
 * normality may be applied to all of them together. Groups of one reading give none.
 *
 * Source: Helmert, Astronomische Nachrichten 88 (1876).
 */
export function helmertContrasts(groups: readonly (readonly number[])[]): number[] {
  return groups.flatMap((group) => {
    let sum = 0;
    return group.flatMap((reading, before) => {
      const contrast = (sum - before * reading) / Math.sqrt((before + 1) * before);
      sum += reading;
      return before === 0 ? [] : [contrast];
    });
  });
}

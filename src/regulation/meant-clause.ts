/** Letters, digits and points of a clause number. */
const bare = (clause: string): string =>
  clause
    .toLowerCase()
    .replace(/[^a-z0-9.]/g, '')
    .replace(/\.$/, '');

/** The clause of a list that a number means: the same letters and digits, with other brackets, blanks or case too. */
export const meantClause = (clause: string, known: Iterable<string>): string | undefined => {
  const all = [...known];
  return all.includes(clause) ? clause : all.find((each) => bare(each) === bare(clause));
};

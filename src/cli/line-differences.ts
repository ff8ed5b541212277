/** Lines that an edit took away (`-`) and put in (`+`), in order, for edits that keep the order of all other lines. */
export const lineDifferences = (before: string, after: string): readonly string[] => {
  const old = before.split(/\r\n?|\n/);
  const now = after.split(/\r\n?|\n/);
  const differences: string[] = [];
  let at = 0;
  for (const [index, line] of old.entries()) {
    if (now[at] === line) {
      at += 1;
      continue;
    }
    const next = now.indexOf(line, at);
    // A line stands further down where only lines were put in before it; else it was taken away.
    const put = next === -1 || old.length - index > now.length - next ? undefined : now.slice(at, next);
    if (put === undefined) differences.push(`-${line}`);
    else {
      differences.push(...put.map((each) => `+${each}`));
      at = next + 1;
    }
  }
  return [...differences, ...now.slice(at).map((line) => `+${line}`)];
};

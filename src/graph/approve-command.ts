/** A word as a shell takes it, whatever stands in it. */
const shellWord = (text: string): string =>
  /^[\p{L}\p{N}._-]+$/u.test(text)
    ? text
    : /^[\p{L}\p{N} .,_-]+$/u.test(text)
      ? `"${text}"`
      : `'${text.replaceAll("'", "'\\''")}'`;

/** The command by which a role approves: for hints. `what` are ids or `--because ID`; without a role the reader fills it in. */
export const approveCommand = (what: readonly string[], role?: string): string =>
  [
    'plinth approve',
    ...what.map(shellWord),
    `--role ${role === undefined ? 'ROLE' : shellWord(role)}`,
    '--name "FULL NAME"',
  ].join(' ');

/** Names the one role that several approvals have in common, if there is one. */
export const onlyRole = (roles: readonly string[]): string | undefined =>
  new Set(roles).size === 1 ? roles[0] : undefined;

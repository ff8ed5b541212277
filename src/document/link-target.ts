/**
 * Whether a link may lead there: the web or a mail address. Everything else could run a script, open a file or hide
 * where it goes, so compilers and writers keep the words and drop the link.
 */
export function isSafeTarget(target: string): boolean {
  return /^(?:https?:\/\/|mailto:)/i.test(target);
}

/**
 * Whether a path names a file of the folder in which a document lies, below it, or in a folder beside it: no scheme, at
 * most one step up, no absolute path, nothing that another system reads otherwise.
 */
export function isNearbyFile(path: string): boolean {
  const steps = path.split('/');
  const below = steps[0] === '..' && steps.length > 2 ? steps.slice(1) : steps;
  return (
    path.length <= 300 &&
    below.every((step) => /^[\p{L}\p{N}_(][\p{L}\p{N}_ ().,+-]*$/u.test(step) && !/[. ]$/.test(step))
  );
}

/** A path as a link holds it: every sign that has a meaning in a link is written by its number. */
export function asLink(path: string): string {
  return path.split('/').map(encodeURIComponent).join('/');
}

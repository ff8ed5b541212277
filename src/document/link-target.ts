/**
 * Whether a link may lead there: the web or a mail address. Everything else could run a script, open a file or hide
 * where it goes, so compilers and writers keep the words and drop the link.
 */
export function isSafeTarget(target: string): boolean {
  return /^(?:https?:\/\/|mailto:)/i.test(target);
}

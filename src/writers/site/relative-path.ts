/**
 * The way from one page to another, both named from the site's folder: pages lie at different depths, and the folder may
 * lie anywhere. `#place` at the end stays.
 */
export function relativePath(from: string, to: string): string {
  const [path = '', place] = to.split('#', 2);
  const hash = place === undefined ? '' : `#${place}`;
  if (path === from) return hash === '' ? (from.split('/').at(-1) ?? from) : hash;
  const here = from.split('/').slice(0, -1);
  const there = path.split('/');
  let same = 0;
  while (same < here.length && same < there.length - 1 && here[same] === there[same]) same += 1;
  return `${'../'.repeat(here.length - same)}${there.slice(same).map(encodeURIComponent).join('/')}${hash}`;
}

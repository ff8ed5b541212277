import { replaceUnprintable } from '../../document/clean-text.ts';
import type { SearchEntry } from '../../document/site.ts';
import { scriptJson } from './grid.ts';
import { stateClass } from './site-inlines.ts';
import type { SiteFile } from './write-site.ts';

/** Signs of running text in one file of the index: small enough that reading it keeps nobody waiting. */
const signsInShard = 400_000;

/**
 * The search index as files that a page loads when somebody begins to search: first names and titles of everything, then
 * running texts, in the same order, a share in each file.
 */
export function* writeSearchIndex(entries: Iterable<SearchEntry>): Generator<SiteFile> {
  const kinds: string[] = [];
  const states: string[] = [];
  const numberOf = (list: string[], word: string): number => {
    const at = list.indexOf(word);
    if (at !== -1) return at;
    list.push(word);
    return list.length - 1;
  };
  const names: string[] = [];
  let texts: string[] = [];
  let signs = 0;
  let first = 0;
  let shards = 0;
  const shard = (): SiteFile => {
    const path = `data/search-text-${shards}.js`;
    const content = `plinthSearchTexts(${first},[\n${texts.join(',\n')}\n]);\n`;
    shards += 1;
    first += texts.length;
    texts = [];
    signs = 0;
    return { path, content: replaceUnprintable(content).text };
  };
  for (const { path, id, title, kind, state, text } of entries) {
    names.push(scriptJson([path, id, title, numberOf(kinds, kind), numberOf(states, state)]));
    texts.push(scriptJson(text));
    signs += text.length;
    if (signs > signsInShard) yield shard();
  }
  if (texts.length > 0) yield shard();
  const content = `plinthSearchNames(${scriptJson({
    kinds,
    states: states.map((state) => [state, stateClass(state)]),
    shards,
  })},[\n${names.join(',\n')}\n]);\n`;
  yield { path: 'data/search-names.js', content: replaceUnprintable(content).text };
}

import { loadScript } from './load-script.ts';
import {
  addTexts,
  type NamedEntry,
  pieceAround,
  type SearchIndex,
  search,
  searchIndex,
} from './search-rank.ts';
import { folded, type Sought } from './search-words.ts';

const mostHits = 40;

interface Names {
  readonly kinds: readonly string[];
  readonly states: readonly (readonly [string, string])[];
  readonly shards: number;
}

interface Loaded {
  readonly about: Names;
  readonly entries: readonly NamedEntry[];
  readonly index: SearchIndex;
  /** Running texts as written, for the piece that is shown. */
  readonly written: string[];
}

const element = <K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Readonly<Record<string, string>> = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] => {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children);
  return made;
};

/** The words with those that were looked for set off. */
const marked = (words: string, sought: Sought): readonly (Node | string)[] => {
  const lower = folded(words);
  const hits = sought
    .flat()
    .map((word) => ({ at: lower.indexOf(word), length: word.length }))
    .filter(({ at }) => at !== -1)
    .sort((a, b) => a.at - b.at);
  const pieces: (Node | string)[] = [];
  let done = 0;
  for (const { at, length } of hits) {
    if (at < done) continue;
    pieces.push(words.slice(done, at), element('mark', {}, words.slice(at, at + length)));
    done = at + length;
  }
  return [...pieces, words.slice(done)];
};

/** Search over everything, in a dialog: `/` or Ctrl+K opens it, arrows choose, Enter goes there. */
export const addSearch = (tools: Element, root: string): void => {
  let loaded: Loaded | undefined;
  let isLoading = false;
  let shown: readonly number[] = [];
  let chosen = 0;

  const input = element('input', {
    type: 'search',
    'aria-label': 'Search records, documents and raw data',
    role: 'combobox',
    'aria-expanded': 'true',
    'aria-controls': 'search-hits',
    'aria-autocomplete': 'list',
    autocomplete: 'off',
    spellcheck: 'false',
    placeholder: 'An id, or words',
  });
  const close = element('button', { type: 'button' }, 'Close');
  const found = element('p', { class: 'found', role: 'status' });
  const list = element('ul', { id: 'search-hits', role: 'listbox', 'aria-label': 'Found' });
  const dialog = element(
    'dialog',
    { class: 'search', 'aria-label': 'Search' },
    element('div', { class: 'line' }, input, close),
    found,
    list,
  );
  document.body.append(dialog);

  const go = (index: number): void => {
    const path = loaded?.entries[index]?.[0];
    if (path === undefined) return;
    dialog.close();
    location.href = `${root}${path
      .split('#')
      .map((part, at) => (at === 0 ? part.split('/').map(encodeURIComponent).join('/') : part))
      .join('#')}`;
  };

  const choose = (at: number): void => {
    const items = [...list.children];
    chosen = items.length === 0 ? 0 : (at + items.length) % items.length;
    for (const [index, item] of items.entries())
      item.setAttribute('aria-selected', index === chosen ? 'true' : 'false');
    const item = items[chosen];
    item?.scrollIntoView({ block: 'nearest' });
    if (item) input.setAttribute('aria-activedescendant', item.id);
    else input.removeAttribute('aria-activedescendant');
  };

  const draw = (): void => {
    const query = input.value;
    if (!loaded) {
      found.textContent = 'Loading the index …';
      return;
    }
    const { about, entries, index, written } = loaded;
    const start = performance.now();
    const { hits, count, sought, isNearest } = search(query, index, mostHits);
    dialog.dataset['milliseconds'] = (performance.now() - start).toFixed(1);
    shown = hits.map((hit) => hit.index);
    found.textContent =
      sought.length === 0
        ? `${entries.length} records, clauses, documents and files`
        : count === 0
          ? 'Nothing found'
          : `${isNearest ? `Nothing holds these words. Nearest: ${sought.map((words) => words.join(' or ')).join(', ')}. ` : ''}${
              count > mostHits ? `The first ${mostHits} of ${count}` : `${count} found`
            }`;
    list.replaceChildren(
      ...shown.map((number, position) => {
        const [, id = '', title = '', kind = 0, state = 0] = entries[number] ?? [];
        const [word = '', look = ''] = about.states[state] ?? [];
        const piece = hits[position]?.score === undefined ? '' : pieceOf(number, sought, index, written);
        const item = element(
          'li',
          { role: 'option', id: `search-hit-${position}` },
          element('span', { class: 'id' }, ...marked(id, sought)),
          ...marked(title, sought),
          element('span', { class: 'kind' }, about.kinds[kind] ?? ''),
          ...(word === '' ? [] : [element('span', { class: look }, word)]),
          ...(piece === '' ? [] : [element('span', { class: 'piece' }, ...marked(piece, sought))]),
        );
        item.addEventListener('click', () => go(number));
        return item;
      }),
    );
    choose(0);
  };

  const load = async (): Promise<void> => {
    if (isLoading) return;
    isLoading = true;
    const texts: { readonly first: number; readonly texts: readonly string[] }[] = [];
    Object.assign(globalThis, {
      plinthSearchNames: (about: Names, entries: readonly NamedEntry[]) => {
        loaded = {
          about,
          entries,
          index: searchIndex(
            entries,
            about.states.map(([word]) => word),
          ),
          written: [],
        };
      },
      plinthSearchTexts: (first: number, list: readonly string[]) => texts.push({ first, texts: list }),
    });
    try {
      await loadScript(`${root}data/search-names.js`);
      draw();
      for (let shard = 0; shard < (loaded?.about.shards ?? 0); shard += 1) {
        await loadScript(`${root}data/search-text-${shard}.js`);
        const part = texts.pop();
        if (!loaded || !part) continue;
        for (const [offset, text] of part.texts.entries()) loaded.written[part.first + offset] = text;
        addTexts(loaded.index, part.first, part.texts);
      }
      dialog.dataset['loaded'] = 'all';
      draw();
    } catch {
      found.textContent = 'The search index could not be loaded: is the folder complete?';
    }
  };

  const open = (): void => {
    if (dialog.open) return;
    dialog.showModal();
    input.select();
    draw();
    void load();
  };

  const button = element(
    'button',
    { type: 'button', class: 'search-open', 'aria-keyshortcuts': '/ Control+K' },
    'Search',
  );
  button.append(element('kbd', { 'aria-hidden': 'true' }, '/'));
  button.addEventListener('click', open);
  tools.append(button);

  close.addEventListener('click', () => dialog.close());
  dialog.addEventListener('click', (event) => {
    // A click on what lies behind the dialog has the dialog itself as its target.
    if (event.target === dialog) dialog.close();
  });
  input.addEventListener('input', draw);
  input.addEventListener('keydown', (event) => {
    if (event.key === 'ArrowDown') choose(chosen + 1);
    else if (event.key === 'ArrowUp') choose(chosen - 1);
    // A search field takes the first Escape for itself, to empty it.
    else if (event.key === 'Escape') dialog.close();
    else if (event.key === 'Enter') {
      const index = shown[chosen];
      if (index !== undefined) go(index);
    } else return;
    event.preventDefault();
  });
  document.addEventListener('keydown', (event) => {
    const isTyping =
      event.target instanceof HTMLElement &&
      event.target.matches('input, textarea, select, [contenteditable]');
    if (
      (event.key === '/' && !isTyping) ||
      (event.key.toLowerCase() === 'k' && (event.ctrlKey || event.metaKey))
    ) {
      event.preventDefault();
      open();
    }
  });
};

/** The running text around what was looked for, where it is not in the name already. */
const pieceOf = (number: number, sought: Sought, index: SearchIndex, written: readonly string[]): string => {
  const name = `${index.ids[number] ?? ''} ${index.titles[number] ?? ''}`;
  if (sought.every((spellings) => spellings.some((word) => name.includes(word)))) return '';
  const lower = index.texts[number];
  const piece = pieceAround(lower, sought);
  if (piece === '' || lower === undefined) return piece;
  const plain = piece.replace(/^… /, '').replace(/ …$/, '');
  const at = lower.indexOf(plain);
  // Lower case may have another length in rare languages; then the piece stays as it is.
  return at === -1 ? piece : piece.replace(plain, () => (written[number] ?? '').slice(at, at + plain.length));
};

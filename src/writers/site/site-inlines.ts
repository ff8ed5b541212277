import type { Inline } from '../../document/model.ts';
import type { SiteInline } from '../../document/site.ts';
import { escapeHtml } from '../html/escape.ts';
import { writeInlines } from '../html/inlines.ts';
import type { PageInHand } from './site-page.ts';

/** The shape that goes with a word, so that no meaning rests on colour; words not named here have none. */
export const stateShapes: Readonly<Record<string, string>> = {
  passed: 'good',
  pass: 'good',
  'in force': 'good',
  approved: 'good',
  closed: 'good',
  failed: 'bad',
  fail: 'bad',
  lapsed: 'bad',
  error: 'bad',
  overdue: 'bad',
  'in doubt': 'doubt',
  undecided: 'doubt',
  warning: 'doubt',
  planned: 'open',
  'in review': 'open',
  'to be signed': 'open',
  open: 'open',
  unplanned: 'missing',
  draft: 'missing',
  note: 'aside',
  'not approved': 'aside',
  replaced: 'aside',
  retired: 'aside',
};

/** The class of a state word; an own property only, for content may say "constructor". */
export function stateClass(state: string): string {
  return Object.hasOwn(stateShapes, state) ? `state state-${stateShapes[state]}` : 'state';
}

/** File names and ids are kept on one line. */
function isOneWord(children: readonly Inline[]): boolean {
  const [only] = children;
  return children.length === 1 && only?.kind === 'text' && /^[^\s/]{1,24}$/.test(only.value);
}

/** Running words with links to other pages and marked states. */
export function writeSiteInlines(children: readonly SiteInline[], at: PageInHand): string {
  return children
    .map((child) => {
      switch (child.kind) {
        case 'page-link':
          return `<a${isOneWord(child.children) ? ' class="record"' : ''} href="${escapeHtml(at.href(child.path))}">${writeInlines(child.children, at.html)}</a>`;
        case 'state-mark':
          return `<span class="${stateClass(child.state)}">${escapeHtml(child.state)}</span>`;
        default:
          return writeInlines([child], at.html);
      }
    })
    .join('');
}

import { replaceUnprintable } from '../../document/clean-text.ts';
import { escapeHtml } from '../html/escape.ts';
import { writeNotes } from '../html/write-html.ts';
import { writeParts } from './parts.ts';
import { writeSiteInlines } from './site-inlines.ts';
import type { PageInHand } from './site-page.ts';

/** What a page may load and do; only the pages of a running `serve` may listen for changes. */
export function contentPolicy(isLive: boolean): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "img-src 'self' data:",
    ...(isLive ? ["connect-src 'self'"] : []),
    "base-uri 'none'",
    "form-action 'none'",
    "require-trusted-types-for 'script'",
    'trusted-types plinth',
  ].join('; ');
}

function writeNavigation({ site, page, href }: PageInHand): string {
  const groups = site.navigation.map(({ title, entries }) => {
    const items = entries.map(({ title: words, path, count }) => {
      const current = path === page.under ? ` aria-current="${path === page.path ? 'page' : 'true'}"` : '';
      const number = count === undefined ? '' : ` <span class="count">${count}</span>`;
      return `<li><a href="${escapeHtml(href(path))}"${current}>${escapeHtml(words)}${number}</a></li>`;
    });
    const heading = title === undefined ? '' : `<p class="group">${escapeHtml(title)}</p>\n`;
    return `${heading}<ul>\n${items.join('\n')}\n</ul>`;
  });
  return `<nav id="pages" class="pages" popover aria-label="Pages">\n${groups.join('\n')}\n</nav>`;
}

function writeHead({ page, href }: PageInHand): string {
  const above = page.above ? `<p class="above">$ABOVE</p>\n` : '';
  const step = (way: 'before' | 'after', words: string): string => {
    const other = page[way];
    return other
      ? `<a rel="${way === 'before' ? 'prev' : 'next'}" href="${escapeHtml(href(other.path))}" title="${escapeHtml(other.title)}">${words}</a>`
      : '';
  };
  const steps = [step('before', 'Previous'), step('after', 'Next')].filter((each) => each !== '').join(' ');
  return `${above}${steps === '' ? '' : `<p class="steps">${steps}</p>\n`}`;
}

/** Writes a page whole: head, navigation, parts, footer. `live` names the state that a page of `serve` shows. */
export function writeFrame(at: PageInHand, live: string | undefined): string {
  const { site, page, href } = at;
  const isLive = live !== undefined;
  const isDocument = page.parts.some((part) => part.kind === 'document');
  const parts = writeParts(page.parts, at);
  const notes = writeNotes(at.html);
  const device = site.code === undefined ? site.title : `${site.title} ${site.code}`;
  const title = page.path === 'index.html' ? device : `${page.title} – ${device}`;
  const head = writeHead(at).replace('$ABOVE', () => writeSiteInlines(page.above ?? [], at));
  const places =
    at.places.length < 3
      ? ''
      : `<nav class="places" aria-label="On this page">\n<p class="group">On this page</p>\n<ul>\n${at.places
          .map(({ id, title: words }) => `<li><a href="#${escapeHtml(id)}">${escapeHtml(words)}</a></li>`)
          .join('\n')}\n</ul>\n</nav>\n`;
  const heading = isDocument
    ? ''
    : `<h1>${escapeHtml(page.title)}</h1>\n${page.marks ? `<p class="marks">${page.marks.map((each) => `<span>${writeSiteInlines(each, at)}</span>`).join(' ')}</p>\n` : ''}`;
  const citation =
    page.citation === undefined
      ? ''
      : `<section class="citation" aria-labelledby="citation-title">\n<h2 id="citation-title">To cite this page</h2>\n<p id="citation-text">${escapeHtml(page.citation)}</p>\n</section>\n`;
  const origin = site.origin
    .map(
      ({ name, value }) =>
        `<li>${escapeHtml(name)}: <span class="origin-value">${escapeHtml(value)}</span></li>`,
    )
    .join('\n');
  const scripts = [
    ...at.dataFiles.map(({ path }) => `<script defer src="${escapeHtml(href(path))}"></script>`),
    ...(isLive ? [`<script defer src="${escapeHtml(href('assets/live.js'))}"></script>`] : []),
  ];
  const html = [
    '<!DOCTYPE html>',
    `<html lang="${escapeHtml(site.language)}" data-root="${escapeHtml(rootOf(page.path))}"${isLive ? ` data-state="${escapeHtml(live)}"` : ''}>`,
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${contentPolicy(isLive)}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="referrer" content="no-referrer">',
    `<title>${escapeHtml(title)}</title>`,
    `<link rel="icon" href="${escapeHtml(href('assets/icon.svg'))}" type="image/svg+xml">`,
    `<script src="${escapeHtml(href('assets/theme.js'))}"></script>`,
    `<link rel="stylesheet" href="${escapeHtml(href('assets/site.css'))}">`,
    ...scripts,
    `<script defer src="${escapeHtml(href('assets/site.js'))}"></script>`,
    '</head>',
    '<body>',
    '<a class="skip" href="#content">Skip to the content</a>',
    '<header class="top">',
    '<button type="button" class="menu" popovertarget="pages">Pages</button>',
    `<a class="home" href="${escapeHtml(href('index.html'))}"><span class="device">${escapeHtml(site.title)}</span>${site.code === undefined ? '' : ` <span class="code">${escapeHtml(site.code)}</span>`}</a>`,
    '<span class="tools" id="tools"></span>',
    '</header>',
    writeNavigation(at),
    `<main id="content" tabindex="-1">\n${head}${heading}${places}${parts}\n${notes}${citation}</main>`,
    `<footer>\n<p class="caution"><strong>Caution.</strong> ${escapeHtml(site.caution)}</p>\n<ul class="origin">\n${origin}\n</ul>\n</footer>`,
    '</body>',
    '</html>',
  ];
  return `${replaceUnprintable(html.filter((part) => part !== '').join('\n')).text}\n`;
}

/** The way from a page back to the site's folder. */
function rootOf(path: string): string {
  return '../'.repeat(path.split('/').length - 1);
}

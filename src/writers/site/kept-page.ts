import { replaceUnprintable } from '../../document/clean-text.ts';
import { escapeHtml } from '../html/escape.ts';

export interface KeptPage {
  /** Path of the page from the site's folder. */
  readonly path: string;
  /** The page as it was written for an earlier state. */
  readonly html: string;
  /** Name of the state that the pages around it show. */
  readonly live: string;
  /** The file that the page was made from. */
  readonly file: string;
  /** What is wrong with the file, with the place. */
  readonly troubles: readonly { readonly place: string; readonly message: string }[];
}

/** The content of a page begins here; the frame writes it once in each page. */
const contentStart = '<main id="content" tabindex="-1">\n';

/**
 * A page of an earlier state whose file cannot be read now, with the reason above it. It listens as a page of the present
 * state, so that it gives way as soon as the file is mended.
 */
export function writeKeptPage({ path, html, live, file, troubles }: KeptPage): string {
  const up = '../'.repeat(path.split('/').length - 1);
  const lines = [
    `<strong>This page shows an earlier state.</strong> <code>${escapeHtml(file)}</code> cannot be read as a record now.`,
    ...troubles.map(({ place, message }) => `<code>${escapeHtml(place)}</code>: ${escapeHtml(message)}.`),
    `<a href="${up}findings.html">All findings</a>`,
  ];
  const notice = `<div class="notice notice-bad" role="alert">\n${lines.map((line) => `<p>${line}</p>`).join('\n')}\n</div>\n`;
  return html
    .replace(/(<html [^>]*data-state=")[^"]*"/, (_, before: string) => `${before}${escapeHtml(live)}"`)
    .replace(contentStart, (start) => `${start}${replaceUnprintable(notice).text}`);
}

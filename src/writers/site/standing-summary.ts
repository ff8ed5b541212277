import type { StandingSummary, Tiles } from '../../document/site.ts';
import { escapeHtml } from '../html/escape.ts';
import { stateClass, stateShapes } from './site-inlines.ts';
import type { PageInHand } from './site-page.ts';

const barWidth = 400;
const barHeight = 18;

/** A table of counts by standing, each row with a bar; bars repeat the numbers and are hidden from screen readers. */
export function writeStandingSummary(summary: StandingSummary, at: PageInHand): string {
  const states = summary.rows[0]?.counts.map(({ state }) => state) ?? [];
  const rows = summary.rows.map(({ title, path, counts }) => {
    const total = counts.reduce((sum, { count }) => sum + count, 0);
    let x = 0;
    const pieces = counts.flatMap(({ state, count }) => {
      if (count === 0 || total === 0) return [];
      const width = (barWidth * count) / total;
      const piece = `<rect class="bar-${stateShapes[state] ?? 'aside'}" x="${x.toFixed(1)}" y="0" width="${Math.max(1, width - 2).toFixed(1)}" height="${barHeight}" rx="2"/>`;
      x += width;
      return [piece];
    });
    const cells = counts
      .map(({ state, count, path: where }) =>
        count === 0
          ? '<td class="right zero">0</td>'
          : `<td class="right"><a href="${escapeHtml(at.href(where))}" aria-label="${escapeHtml(`${title}, ${state}: ${count}`)}">${count}</a></td>`,
      )
      .join('');
    return (
      `<tr><th scope="row"><a href="${escapeHtml(at.href(path))}">${escapeHtml(title)}</a></th>` +
      `<td class="right">${total}</td><td class="bar"><svg viewBox="0 0 ${barWidth} ${barHeight}" preserveAspectRatio="none" aria-hidden="true">${pieces.join('')}</svg></td>${cells}</tr>`
    );
  });
  const heads = states
    .map(
      (state) =>
        `<th scope="col" class="right"><span class="${stateClass(state)}">${escapeHtml(state)}</span></th>`,
    )
    .join('');
  return (
    `<div class="scroll" role="group" tabindex="0" aria-label="${escapeHtml(summary.caption)}">\n<table class="summary"><caption>${escapeHtml(summary.caption)}</caption>\n` +
    `<thead><tr><th scope="col">Kind</th><th scope="col" class="right">All</th><th scope="col" class="bar">Share</th>${heads}</tr></thead>\n<tbody>\n${rows.join('\n')}\n</tbody></table>\n</div>`
  );
}

/** Numbers that say at a glance how things are, each leading to what it counts. */
export function writeTiles({ tiles }: Tiles, at: PageInHand): string {
  const items = tiles.map(
    ({ value, label, detail, path, tone }) =>
      `<li class="tile tile-${tone}"><a href="${escapeHtml(at.href(path))}"><span class="value">${escapeHtml(value)}</span> <span class="label">${escapeHtml(label)}</span>${detail === undefined ? '' : ` <span class="detail">${escapeHtml(detail)}</span>`}</a></li>`,
  );
  return `<ul class="tiles">\n${items.join('\n')}\n</ul>`;
}

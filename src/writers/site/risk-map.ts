import type { RiskCell, RiskMap } from '../../document/site.ts';
import { escapeHtml } from '../html/escape.ts';
import type { PageInHand } from './site-page.ts';

/** Ids in one cell beyond this number are counted; the cell leads to all of them. */
const mostIds = 6;

function writeCell({ anchor, isAcceptable, ids }: RiskCell, at: PageInHand): string {
  const look = isAcceptable ? 'within' : 'outside';
  const said = isAcceptable ? 'within the criteria' : 'not within the criteria';
  if (ids.length === 0) return `<td class="${look}"><span class="said">none, ${said}</span></td>`;
  const shown = ids.length > mostIds ? ids.slice(0, mostIds - 1) : ids;
  const links = shown.map((id) => {
    const path = at.site.recordPaths.get(id);
    const title = at.site.recordTitles.get(id);
    return path === undefined
      ? escapeHtml(id)
      : `<a class="record" href="${escapeHtml(at.href(path))}"${title === undefined ? '' : ` title="${escapeHtml(title)}"`}>${escapeHtml(id)}</a>`;
  });
  const rest = ids.length > shown.length ? ` and ${ids.length - shown.length} more` : '';
  return (
    `<td class="${look}"><a class="open" href="#${escapeHtml(anchor)}"><span class="count">${ids.length}</span> <span class="said">risk${ids.length === 1 ? '' : 's'}, ${said}: open the cell</span></a>` +
    `<span class="ids">${links.join(' ')}${rest}</span></td>`
  );
}

/** Risks by severity and probability, one table for each panel; outside of the criteria cells are hatched. */
export function writeRiskMap({ severities, bands, panels }: RiskMap, at: PageInHand): string {
  const heads = severities
    .map(
      ({ name, meaning }) =>
        `<th scope="col">${escapeHtml(name)}${meaning === '' ? '' : `<span class="meaning">${escapeHtml(meaning)}</span>`}</th>`,
    )
    .join('');
  const tables = panels.map(({ title, cells }) => {
    const rows = cells.map((row, index) => {
      const band = bands[index];
      const meaning = band?.meaning ? `<span class="meaning">${escapeHtml(band.meaning)}</span>` : '';
      return `<tr><th scope="row">${escapeHtml(band?.name ?? '')}${meaning}</th>${row.map((cell) => writeCell(cell, at)).join('')}</tr>`;
    });
    return (
      `<div class="scroll" role="group" tabindex="0" aria-label="${escapeHtml(`Risk map, ${title}`)}">\n<table class="risk-map"><caption>${escapeHtml(title)}</caption>\n` +
      `<thead><tr><td></td>${heads}</tr></thead>\n<tbody>\n${rows.join('\n')}\n</tbody></table>\n</div>`
    );
  });
  return (
    `<div class="risk-maps">\n${tables.join('\n')}\n</div>\n` +
    '<p class="quiet">Severity to the right, probability of harm upwards. Hatched cells are not within the criteria. A number opens what lies in its cell.</p>'
  );
}

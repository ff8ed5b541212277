import type { Neighbourhood } from '../../document/site.ts';
import { escapeHtml } from '../html/escape.ts';
import { stateShapes } from './site-inlines.ts';
import type { PageInHand } from './site-page.ts';

const near = (value: number): string => String(Math.round(value * 10) / 10);

function writeNode(node: Neighbourhood['nodes'][number], map: Neighbourhood, at: PageInHand): string {
  const { x, y, label, title, state, path, isCentre } = node;
  const shape = state === undefined ? undefined : (stateShapes[state] ?? 'aside');
  const drawn =
    `<rect x="${near(x)}" y="${near(y)}" width="${map.nodeWidth}" height="${map.nodeHeight}" rx="4" class="node${isCentre ? ' centre' : ''}${path === undefined ? ' more' : ''}"/>` +
    `<text x="${near(x + 10)}" y="${near(y + 17)}" class="name">${escapeHtml(label)} </text>` +
    (title === ''
      ? ''
      : `<text x="${near(x + 10)}" y="${near(y + 33)}" class="title">${escapeHtml(title)} </text>`) +
    (shape === undefined
      ? ''
      : `<text x="${near(x + map.nodeWidth - 10)}" y="${near(y + 17)}" class="word word-${shape}" text-anchor="end">${escapeHtml(state ?? '')}</text>`);
  if (path === undefined || isCentre) return `<g>${drawn}</g>`;
  return `<a href="${escapeHtml(at.href(path))}">${drawn}</a>`;
}

/** A record among its neighbours, each a link. */
export function writeNeighbourhood(map: Neighbourhood, at: PageInHand): string {
  const edges = map.edges.map(({ from, to }) => {
    const half = (from.x + to.x) / 2;
    return `<path d="M${near(from.x)} ${near(from.y)}C${near(half)} ${near(from.y)} ${near(half)} ${near(to.y)} ${near(to.x)} ${near(to.y)}"/>`;
  });
  return (
    `<div class="neighbourhood scroll" role="group" tabindex="0" aria-label="Neighbourhood">\n` +
    `<svg viewBox="0 0 ${near(map.widthPx)} ${near(map.heightPx)}" width="${near(map.widthPx)}" height="${near(map.heightPx)}" ${map.widthPx < 700 ? 'class="small" ' : ''}role="group" aria-label="${escapeHtml(map.alternative)}">` +
    `<g class="edges" aria-hidden="true">${edges.join('')}</g>${map.nodes.map((node) => writeNode(node, map, at)).join('')}</svg>\n</div>`
  );
}

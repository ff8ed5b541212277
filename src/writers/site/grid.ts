import { columnKeys } from '../../document/column-keys.ts';
import { inlineText } from '../../document/document-text.ts';
import type { Inline } from '../../document/model.ts';
import type { Grid, SiteInline } from '../../document/site.ts';
import { escapeHtml } from '../html/escape.ts';
import { relativePath } from './relative-path.ts';
import { stateClass, writeSiteInlines } from './site-inlines.ts';
import type { PageInHand } from './site-page.ts';

/** Rows that stand in the page itself. Longer tables have all their rows in a data file, which a script shows. */
export const mostStaticRows = 300;

/** A piece of a cell in a data file: plain words, or a list whose first item says what it is. */
type Piece =
  | string
  | readonly ['r', string, string]
  | readonly ['s', string, string]
  | readonly ['p', string, string]
  | readonly ['t', string, string]
  | 0;

/** Dates are kept on one line. */
const date = /^\d{4}-\d{2}-\d{2}$/;

/** A file name that holds nothing but the id's letters. */
function dataName(id: string): string {
  return `data/${id.replace(/[^A-Za-z0-9._-]/g, '_')}.js`;
}

function pieceOf(child: SiteInline, at: PageInHand): readonly Piece[] {
  switch (child.kind) {
    case 'text':
      return [
        child.tone === undefined && child.bold !== true
          ? child.value
          : ['t', child.tone ?? 'bold', child.value],
      ];
    case 'line-break':
      return [0];
    case 'record-reference': {
      const path = at.site.recordPaths.get(child.id);
      return [path === undefined ? child.id : ['r', child.id, relativePath(at.page.path, path)]];
    }
    case 'page-link':
      return [['p', inlineText(child.children), at.href(child.path)]];
    case 'state-mark':
      return [['s', child.state, stateClass(child.state)]];
    default:
      return [inlineText([child])];
  }
}

/** Text for a script file: JSON, without the two line ends that older scripts do not take. */
export function scriptJson(value: unknown): string {
  return JSON.stringify(value)
    .replace(/\u2028/g, '\\u2028')
    .replace(/\u2029/g, '\\u2029');
}

const words = (children: readonly SiteInline[]): string =>
  children
    .map((child) =>
      child.kind === 'state-mark'
        ? child.state
        : child.kind === 'page-link'
          ? inlineText(child.children)
          : inlineText([child as Inline]),
    )
    .join('');

/** Writes a table that readers can filter, sort and take away; without a script it is a table like any other. */
export function writeGrid(grid: Grid, at: PageInHand): string {
  if (grid.rows.length === 0) return `<p class="quiet">${escapeHtml(grid.whenEmpty)}</p>`;
  const isLong = grid.rows.length > mostStaticRows;
  const total = grid.columns.reduce((sum, column) => sum + column.width, 0) || 1;
  const columns = grid.columns
    .map(({ width }) => `<col class="w${Math.max(1, Math.round((100 * width) / total))}">`)
    .join('');
  const keys = columnKeys(grid.columns);
  const head = grid.columns
    .map(({ title, align, isChoice, isHidden, isSpare, groups }, index) => {
      const marks = [
        ...(grid.isPlain ? [] : [` data-key="${keys[index] ?? ''}"`]),
        ...(align === undefined ? [] : [' class="right"']),
        ...(isChoice ? [' data-choice'] : []),
        ...(isHidden ? [' data-hidden'] : []),
        ...(isSpare ? [' data-spare'] : []),
        ...(groups ? [' data-groups'] : []),
      ].join('');
      return `<th scope="col"${marks}>${escapeHtml(title)}</th>`;
    })
    .join('');
  let above: readonly string[] = [];
  const rows = grid.rows.slice(0, mostStaticRows).map((row) => {
    const texts = row.cells.map(words);
    const cells = row.cells
      .map((children, index) => {
        const column = grid.columns[index];
        const isRepeated = column?.groups === true && texts[index] === above[index] && texts[index] !== '';
        const look = [
          column?.align === 'right' ? 'right' : '',
          isRepeated ? 'same' : '',
          date.test(texts[index] ?? '') ? 'whole' : '',
        ].filter(Boolean);
        return `<td${look.length === 0 ? '' : ` class="${look.join(' ')}"`}>${writeSiteInlines(children, at)}</td>`;
      })
      .join('');
    above = texts;
    return `<tr${row.anchor === undefined ? '' : ` id="${escapeHtml(row.anchor)}"`}>${cells}</tr>`;
  });
  // A plain statement, so that it does not matter which script runs first.
  if (isLong)
    at.dataFiles.push({
      path: dataName(grid.id),
      content: `(globalThis.plinthRows??=new Map).set(${scriptJson(grid.id)},[\n${grid.rows
        .map((row) => scriptJson(row.cells.map((cell) => cell.flatMap((child) => pieceOf(child, at)))))
        .join(',\n')}\n]);\n`,
    });
  const tools = grid.isPlain ? '' : ` data-grid="${escapeHtml(grid.id)}"`;
  const more = isLong
    ? `<p class="quiet no-script">The first ${mostStaticRows} of ${grid.rows.length} rows. With scripts switched on, all of them can be seen.</p>\n`
    : '';
  return (
    `<div class="grid"${tools}${isLong ? ' data-long' : ''}>\n${more}` +
    `<div class="scroll" role="group" tabindex="0" aria-label="${escapeHtml(grid.caption)}">\n` +
    `<table><caption>${escapeHtml(grid.caption)}</caption><colgroup>${columns}</colgroup>\n` +
    `<thead><tr>${head}</tr></thead>\n<tbody>\n${rows.join('\n')}\n</tbody></table>\n</div>\n</div>`
  );
}

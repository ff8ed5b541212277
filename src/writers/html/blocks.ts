import { anchorBookmark, recordBookmark } from '../../document/anchors.ts';
import { replaceUnprintable } from '../../document/clean-text.ts';
import type { Block, Figure, Heading, Inline, List, Particulars, Row, Table } from '../../document/model.ts';
import { isDrawn } from '../../document/numbering.ts';
import { escapeHtml } from './escape.ts';
import { writeInlines } from './inlines.ts';
import { idMarks, type Page } from './page.ts';

/** Writes blocks one after the other; within lists, quotes and notices headings have no number. */
export function writeBlocks(blocks: readonly Block[], page: Page, nested = false): string {
  return blocks.map((block) => writeBlock(block, page, nested)).join('\n');
}

function writeBlock(block: Block, page: Page, nested: boolean): string {
  switch (block.kind) {
    case 'heading':
      return writeHeading(block, page, nested);
    case 'paragraph':
      return `<p>${idMarks([recordId(block.recordId)], page)}${writeInlines(block.children, page)}</p>`;
    case 'list':
      return writeList(block, page);
    case 'table':
      return writeTable(block, page);
    case 'particulars':
      return writeParticulars(block, page);
    case 'figure':
      return writeFigure(block, page);
    case 'code':
      return `<pre tabindex="0"><code>${escapeHtml(block.value)}</code></pre>`;
    case 'quote':
      return `<blockquote>\n${writeBlocks(block.blocks, page, true)}\n</blockquote>`;
    case 'notice':
      return `<div class="notice notice-${block.tone}" role="note">\n${writeBlocks(block.blocks, page, true)}\n</div>`;
    case 'rule':
      return '<hr>';
    case 'page-break':
      return '<div class="page-break"></div>';
    case 'landscape':
      return `<div class="landscape">\n${writeBlocks(block.blocks, page, nested)}\n</div>`;
  }
}

function hasNumbers({ around }: Page): boolean {
  return around?.isNumbered ?? true;
}

function recordId(id: string | undefined): string | undefined {
  return id === undefined ? undefined : recordBookmark(id);
}

/** The mark of a row, unless its record has a heading of its own: links lead there. */
function rowMark(row: Row, page: Page): string | undefined {
  const isHeaded = row.recordId !== undefined && page.targets.headedRecordIds.has(row.recordId);
  return isHeaded ? undefined : recordId(row.recordId);
}

function anchorId(anchor: string | undefined): string | undefined {
  return anchor === undefined ? undefined : anchorBookmark(anchor);
}

function writeHeading(heading: Heading, page: Page, nested: boolean): string {
  const html = writeInlines(heading.children, page);
  if (nested) return `<p>${idMarks([recordId(heading.recordId)], page)}<strong>${html}</strong></p>`;
  const { level, number } = page.counters.heading(heading.level);
  const id = `section_${number.replaceAll('.', '_')}`;
  page.headings.push({
    level,
    number,
    html: plainHeading(heading.children, page),
    id,
  });
  const marks = idMarks([recordId(heading.recordId), anchorId(heading.anchor)], page);
  // The document's title is the page's only first heading.
  const tag = `h${Math.min(6, level + 1)}`;
  return `<${tag} id="${id}">${marks}${hasNumbers(page) ? `<span class="number">${number}</span> ` : ''}${html}</${tag}>`;
}

/** The heading's words without links, for the contents list is made of links. */
function plainHeading(children: readonly Inline[], page: Page): string {
  return writeInlines(children, page).replace(/<sup>.*?<\/sup>|<\/?(?:a|span)\b[^>]*>|<br>/g, '');
}

function writeList(list: List, page: Page): string {
  const items = list.items.map((item) => {
    const [first, ...rest] = item.blocks;
    const box =
      item.checked === undefined
        ? ''
        : `<input type="checkbox" disabled${item.checked ? ' checked' : ''} aria-label="${item.checked ? 'done' : 'open'}"> `;
    const opening =
      first?.kind === 'paragraph'
        ? idMarks([recordId(first.recordId)], page) + writeInlines(first.children, page)
        : '';
    const others = writeBlocks(first?.kind === 'paragraph' ? rest : item.blocks, page, true);
    return `<li${item.checked === undefined ? '' : ' class="task"'}>${box}${opening}${others && `\n${others}`}</li>`;
  });
  const tag = list.ordered ? 'ol' : 'ul';
  const start = list.ordered && list.start !== undefined ? ` start="${list.start}"` : '';
  return `<${tag}${start}>\n${items.join('\n')}\n</${tag}>`;
}

function writeTable(table: Table, page: Page): string {
  if (!isDrawn(table)) return '';
  const total = table.columns.reduce((sum, column) => sum + Math.max(0, column.width), 0) || 1;
  const columns = table.columns
    .map((column) => columnMark((100 * Math.max(0, column.width)) / total, page))
    .join('');
  const alignments = table.columns.map(({ align }) =>
    align === undefined || align === 'left' ? '' : ` class="${align}"`,
  );
  const head = table.columns
    .map((column, index) => `<th scope="col"${alignments[index]}>${escapeHtml(column.title)}</th>`)
    .join('');
  const number = table.caption === undefined ? '' : `Table ${page.counters.table()}`;
  const marks = table.caption === undefined ? '' : idMarks([anchorId(table.anchor)], page);
  const caption =
    table.caption === undefined
      ? ''
      : `<caption>${marks}${hasNumbers(page) ? `<span class="label">${number}:</span> ` : ''}${escapeHtml(table.caption)}</caption>`;
  const name = table.description ?? table.caption ?? 'Table';
  return (
    `<div class="scroll" role="${page.around ? 'group' : 'region'}" tabindex="0" aria-label="${escapeHtml(name)}">\n<table>${caption}<colgroup>${columns}</colgroup>\n` +
    `<thead><tr>${head}</tr></thead>\n<tbody>\n${writeRows(table, alignments, page)}\n</tbody></table>\n</div>`
  );
}

/** A column's share of the width in per cent. The browsable copy allows no style beside its sheet, which has a class for each. */
function columnMark(percent: number, { around }: Page): string {
  return around
    ? `<col class="w${Math.max(1, Math.round(percent))}">`
    : `<col style="width:${percent.toFixed(2)}%">`;
}

function writeRows(table: Table, alignments: readonly string[], page: Page): string {
  const rowsLeft = table.columns.map(() => 0);
  return table.rows
    .map((row) => {
      const cells: string[] = [];
      let next = 0;
      for (let column = 0; column < rowsLeft.length; column += 1) {
        if ((rowsLeft[column] ?? 0) === 0) {
          const cell = row.cells[next];
          const marks = next === 0 ? idMarks([rowMark(row, page)], page) : '';
          next += 1;
          const span = cell?.rowSpan ?? 1;
          rowsLeft[column] = span;
          const rowSpan = span > 1 ? ` rowspan="${span}"` : '';
          cells.push(
            `<td${rowSpan}${alignments[column]}>${marks}${writeInlines(cell?.children ?? [], page)}</td>`,
          );
        }
        rowsLeft[column] = (rowsLeft[column] ?? 1) - 1;
      }
      return `<tr>${cells.join('')}</tr>`;
    })
    .join('\n');
}

/** Writes names and values as a table with row headings. */
export function writeParticulars(particulars: Particulars, page: Page): string {
  const rows = particulars.entries.map(
    ({ name, value }) =>
      `<tr><th scope="row">${escapeHtml(name)}</th><td>${writeInlines(value, page)}</td></tr>`,
  );
  return `<table class="particulars"><tbody>\n${rows.join('\n')}\n</tbody></table>`;
}

function writeFigure(figure: Figure, page: Page): string {
  const number = page.counters.figure();
  // As an image the drawing can run no script and load nothing, whatever it holds.
  const svg = replaceUnprintable(figure.svg).text;
  const source =
    figure.png === undefined
      ? (page.around?.figureHref(svg) ?? `data:image/svg+xml,${encodeURIComponent(svg)}`)
      : `data:image/png;base64,${figure.png}`;
  const label = hasNumbers(page) ? `<span class="label">Figure ${number}:</span> ` : '';
  return (
    `<figure>${idMarks([anchorId(figure.anchor)], page)}<img src="${escapeHtml(source)}" alt="${escapeHtml(figure.alternative)}" width="${figure.widthPx}" height="${figure.heightPx}"${page.around ? ' loading="lazy"' : ''}>` +
    `<figcaption>${label}${escapeHtml(figure.caption)}</figcaption></figure>`
  );
}

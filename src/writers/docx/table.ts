import { anchorBookmark, recordBookmark } from '../../document/anchors.ts';
import { inlineText } from '../../document/document-text.ts';
import type { Inline, Particulars, Row, Table } from '../../document/model.ts';
import { isDrawn } from '../../document/numbering.ts';
import { columnWidths, fontWidthOf } from './column-widths.ts';
import { bookmark, cleanXml, type Manuscript } from './manuscript.ts';
import { field, plainRun, writeRuns } from './runs.ts';

/** Writes a table with its caption. Fixed widths, a title row repeated on each page, rows kept whole. */
export function writeTable(table: Table, width: number, manuscript: Manuscript): string {
  if (!isDrawn(table)) return '';
  const caption = table.caption === undefined ? '' : tableCaption(table, table.caption, manuscript);
  const widths = columnWidths(table, width, fontWidthOf(manuscript.house?.textFont));
  const head = table.columns
    .map((column, index) =>
      writeCell(
        paragraph('TableHeading', column.align, plainRun(column.title, manuscript)),
        widths[index] ?? 0,
      ),
    )
    .join('');
  const rows = writeRows(table, widths, manuscript);
  return (
    caption +
    startTable('RecordTable', widths, table.description ?? table.caption, manuscript, { titleRow: true }) +
    `<w:tr><w:trPr><w:cantSplit/><w:tblHeader/></w:trPr>${head}</w:tr>${rows}</w:tbl>${afterTable}`
  );
}

/** Writes the particulars of one record: names in the first column, values in the second. */
export function writeParticulars(
  particulars: Particulars,
  width: number,
  manuscript: Manuscript,
  description = 'Particulars',
): string {
  const nameWidth = Math.round(width * 0.28);
  const widths = [nameWidth, width - nameWidth];
  const kept = keptWithNext(
    particulars.entries.map(({ name, value }) =>
      Math.max(linesOf([{ kind: 'text', value: name }], nameWidth), linesOf(value, width - nameWidth)),
    ),
  );
  const rows = particulars.entries
    .map(({ name, value }, index) => {
      const isKept = kept[index] === true;
      const nameCell = writeCell(
        paragraph('ParticularsName', undefined, plainRun(name, manuscript), isKept),
        nameWidth,
      );
      const valueCell = writeCell(
        paragraph('TableText', undefined, writeRuns(value, manuscript), isKept),
        widths[1] ?? 0,
      );
      return `<w:tr><w:trPr><w:cantSplit/></w:trPr>${nameCell}${valueCell}</w:tr>`;
    })
    .join('');
  if (rows === '') return '';
  return `${startTable('ParticularsTable', widths, description, manuscript, { titleRow: false })}${rows}</w:tbl>${afterTable}`;
}

/** Two tables that touch would become one. */
export const afterTable = '<w:p><w:pPr><w:pStyle w:val="AfterTable"/></w:pPr></w:p>';

function tableCaption(table: Table, caption: string, manuscript: Manuscript): string {
  const number = String(manuscript.counters.table());
  const entry = bookmark(manuscript, `_TocTable${number}`);
  const target = table.anchor === undefined ? undefined : bookmark(manuscript, anchorBookmark(table.anchor));
  manuscript.tables.push({
    level: 1,
    number: `Table ${number}`,
    text: caption,
    bookmark: `_TocTable${number}`,
  });
  return (
    '<w:p><w:pPr><w:pStyle w:val="Caption"/><w:keepNext/></w:pPr>' +
    entry.start +
    (target?.start ?? '') +
    plainRun('Table ', manuscript) +
    field('SEQ Table \\* ARABIC', number, manuscript) +
    (target?.end ?? '') +
    plainRun(`: ${caption}`, manuscript) +
    `${entry.end}</w:p>`
  );
}

function startTable(
  style: string,
  widths: readonly number[],
  description: string | undefined,
  manuscript: Manuscript,
  { titleRow }: { readonly titleRow: boolean },
): string {
  const total = widths.reduce((sum, width) => sum + width, 0);
  // LibreOffice reads the bit mask only, Word the attributes: first row 0x0020, no column bands 0x0400, no row bands 0x0200.
  const look = titleRow
    ? '<w:tblLook w:val="0420" w:firstRow="1" w:lastRow="0" w:firstColumn="0" w:lastColumn="0" w:noHBand="0" w:noVBand="1"/>'
    : '<w:tblLook w:val="0600" w:firstRow="0" w:lastRow="0" w:firstColumn="0" w:lastColumn="0" w:noHBand="1" w:noVBand="1"/>';
  const words =
    description === undefined ? '' : `<w:tblDescription w:val="${cleanXml(manuscript, description)}"/>`;
  return (
    `<w:tbl><w:tblPr><w:tblStyle w:val="${style}"/><w:tblW w:w="${total}" w:type="dxa"/><w:tblLayout w:type="fixed"/>${look}${words}</w:tblPr>` +
    `<w:tblGrid>${widths.map((width) => `<w:gridCol w:w="${width}"/>`).join('')}</w:tblGrid>`
  );
}

/** Rows under one cell that are kept on one page; a taller group may break, or pages would stay half empty. */
const mostRowsOfGroupKept = 4;

/** Tables of so few lines stay on one page: a quarter of it. A taller one may break, or pages would stay half empty. */
const mostLinesKept = 14;

/** Room for a letter of the text of tables on the average, in twentieths of a point. */
const letterWidth = 92;

/** About how many lines a text takes in a cell of this width. */
const linesOf = (children: readonly Inline[], width: number): number =>
  inlineText(children)
    .split('\n')
    .reduce((lines, line) => lines + Math.max(1, Math.ceil((line.length * letterWidth) / width)), 0);

/**
 * Which rows stay on a page with the next, by the lines of each: all of a short table; of a longer one the first two
 * and the last two, so that none stands alone at a page's end or start.
 */
const keptWithNext = (lines: readonly number[]): readonly boolean[] => {
  const isShort = lines.reduce((sum, each) => sum + each, 0) <= mostLinesKept;
  const last = lines.length - 1;
  return lines.map((_, index) => index < last && (isShort || index === 0 || index === last - 1));
};

function writeRows(table: Table, widths: readonly number[], manuscript: Manuscript): string {
  const rowsLeft = widths.map(() => 0);
  let rowsOfGroup = 1;
  const kept = keptWithNext(linesOfRows(table, widths));
  return table.rows
    .map((row, index) => {
      if ((rowsLeft[0] ?? 0) === 0) rowsOfGroup = row.cells[0]?.rowSpan ?? 1;
      const rowsToCome = (rowsLeft[0] ?? 0) === 0 ? rowsOfGroup - 1 : (rowsLeft[0] ?? 0) - 1;
      const isKept = (rowsToCome > 0 && rowsOfGroup <= mostRowsOfGroupKept) || kept[index] === true;
      const cells: string[] = [];
      let next = 0;
      for (let column = 0; column < widths.length; column += 1) {
        const width = widths[column] ?? 0;
        if ((rowsLeft[column] ?? 0) > 0) {
          cells.push(writeCell(paragraph('TableText', undefined, '', isKept), width, '<w:vMerge/>'));
        } else {
          const cell = row.cells[next];
          next += 1;
          const span = cell?.rowSpan ?? 1;
          rowsLeft[column] = span;
          const merge = span > 1 ? '<w:vMerge w:val="restart"/>' : '';
          const marks = next === 1 ? rowBookmark(row, manuscript) : { start: '', end: '' };
          const align = table.columns[column]?.align;
          const text = marks.start + writeRuns(cell?.children ?? [], manuscript) + marks.end;
          cells.push(writeCell(paragraph('TableText', align, text, isKept), width, merge));
        }
        rowsLeft[column] = (rowsLeft[column] ?? 1) - 1;
      }
      return `<w:tr><w:trPr><w:cantSplit/></w:trPr>${cells.join('')}</w:tr>`;
    })
    .join('');
}

/** About how many lines each row takes; a cell over several rows counts in none. */
const linesOfRows = (table: Table, widths: readonly number[]): readonly number[] => {
  // Each row takes one at least, so a long table need not be measured.
  if (table.rows.length > mostLinesKept) return table.rows.map(() => 1);
  const rowsLeft = widths.map(() => 0);
  return table.rows.map((row) => {
    let next = 0;
    let lines = 1;
    for (let column = 0; column < widths.length; column += 1) {
      if ((rowsLeft[column] ?? 0) === 0) {
        const cell = row.cells[next];
        next += 1;
        rowsLeft[column] = cell?.rowSpan ?? 1;
        if (rowsLeft[column] === 1)
          lines = Math.max(lines, linesOf(cell?.children ?? [], widths[column] ?? 1));
      }
      rowsLeft[column] = (rowsLeft[column] ?? 1) - 1;
    }
    return lines;
  });
};

function rowBookmark(row: Row, manuscript: Manuscript): { readonly start: string; readonly end: string } {
  // A record that has a heading is marked there: a link opens it in full, and not a row of an index.
  return row.recordId === undefined || manuscript.targets.headedRecordIds.has(row.recordId)
    ? { start: '', end: '' }
    : bookmark(manuscript, recordBookmark(row.recordId));
}

function writeCell(content: string, width: number, extra = ''): string {
  return `<w:tc><w:tcPr><w:tcW w:w="${width}" w:type="dxa"/>${extra}</w:tcPr>${content}</w:tc>`;
}

function paragraph(
  style: string,
  align: 'left' | 'center' | 'right' | undefined,
  content: string,
  isKept = false,
): string {
  const justify = align === undefined || align === 'left' ? '' : `<w:jc w:val="${align}"/>`;
  const keep = isKept ? '<w:keepNext/>' : '';
  return `<w:p><w:pPr><w:pStyle w:val="${style}"/>${keep}${justify}</w:pPr>${content}</w:p>`;
}

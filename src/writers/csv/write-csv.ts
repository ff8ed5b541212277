import { inlineText } from '../../document/document-text.ts';
import type { Cell, Table } from '../../document/model.ts';

/**
 * Writes a table as comma-separated values (RFC 4180: CRLF after each record, quotes doubled) for spreadsheets.
 * A cell over several rows is repeated, so that each row is complete in itself.
 *
 * A cell that a spreadsheet would take for a formula is led by an apostrophe; plain numbers, negative ones too,
 * stay as they are. For machines that must read back the same text, switch the guard off.
 */
export function writeCsv(table: Table, options: { readonly formulaGuard?: boolean } = {}): string {
  const guard = options.formulaGuard ?? true;
  const rows = [table.columns.map((column) => column.title), ...completeRows(table)];
  return rows.map((row) => `${row.map((value) => field(value, guard)).join(',')}\r\n`).join('');
}

/** Every row with a text for every column, spans filled in. */
function completeRows(table: Table): string[][] {
  const open: { text: string; rowsLeft: number }[] = table.columns.map(() => ({
    text: '',
    rowsLeft: 0,
  }));
  return table.rows.map((row) => {
    const cells: Cell[] = [...row.cells];
    return open.map((span) => {
      if (span.rowsLeft === 0) {
        const cell = cells.shift();
        span.text = cell === undefined ? '' : inlineText(cell.children);
        span.rowsLeft = cell?.rowSpan ?? 1;
      }
      span.rowsLeft -= 1;
      return span.text;
    });
  });
}

const plainNumber = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;

// A formula's first sign, also in its full-width form, behind white space or control characters; a tab or
// carriage return may itself start one.
const formulaStart =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: spreadsheets skip control characters, so must we
  /^(?:[\s\u0000-\u001f\u007f\u200b\ufeff]*[=+\-@|\uff1d\uff0b\uff0d\uff20\uff5c]|[\t\r])/;

function field(value: string, guard: boolean): string {
  const text = guard && formulaStart.test(value) && !plainNumber.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) || text !== text.trim() ? `"${text.replaceAll('"', '""')}"` : text;
}

import { inlineText } from '../../document/document-text.ts';
import type { Cell, Table } from '../../document/model.ts';
import { csvField } from './csv-field.ts';

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
  return rows.map((row) => `${row.map((value) => csvField(value, guard)).join(',')}\r\n`).join('');
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

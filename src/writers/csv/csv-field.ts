import { plainNotation } from '../../document/plain-notation.ts';

const plainNumber = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;

// A formula's first sign, also in its full-width form, behind white space or control characters; a tab or
// carriage return may itself start one.
const formulaStart =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: spreadsheets skip control characters, so must we
  /^(?:[\s\u0000-\u001f\u007f\u200b\ufeff]*[=+\-@|\uff1d\uff0b\uff0d\uff20\uff5c]|[\t\r])/;

/**
 * One value of a CSV file (RFC 4180). With the guard, what a spreadsheet would take for a formula is led by an
 * apostrophe; plain numbers stay as they are.
 */
export function csvField(value: string, guard: boolean): string {
  // A spreadsheet reckons with numbers only in the plain form.
  const plain = plainNotation(value);
  const text = guard && formulaStart.test(plain) && !plainNumber.test(plain) ? `'${plain}` : plain;
  return /[",\r\n]/.test(text) || text !== text.trim() ? `"${text.replaceAll('"', '""')}"` : text;
}

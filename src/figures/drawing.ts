import { printedNumber } from '../statistics/number-notation.ts';
/**
 * A finished figure. The text in it is text, in fonts that Word, LibreOffice and browsers have; nothing in it needs an
 * id, so that several can stand on one page.
 */
export interface Drawing {
  readonly svg: string;
  /** What the figure shows, with its numbers, for those who can't see it. */
  readonly alternative: string;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** A value with a name that a figure marks by a line: a limit, a bound, a mean. */
export interface Mark {
  readonly label: string;
  readonly value: number;
}

/** Closes a drawing: white ground, so that it reads the same on a dark page and in print. */
export function drawing(
  widthPx: number,
  heightPx: number,
  alternative: string,
  parts: readonly string[],
): Drawing {
  return {
    widthPx,
    heightPx,
    alternative,
    svg:
      `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}" viewBox="0 0 ${widthPx} ${heightPx}" role="img" font-family="${fontFamily}" font-size="${fontSize}" fill="${ink}">` +
      `<title>${escapeXml(alternative)}</title><rect width="${widthPx}" height="${heightPx}" fill="#ffffff"/>${parts.join('')}</svg>`,
  };
}

/** Carlito has the widths of Calibri; the others stand in where neither is installed. */
const fontFamily = "Carlito, Calibri, 'Liberation Sans', Arial, sans-serif";

export const fontSize = 13;

/**
 * Colours of the documents. Each differs from its neighbours in lightness too, and no meaning rests on colour alone:
 * lines differ by dashes, points by shape, and every mark carries its words.
 */
export const ink = '#22292f';
export const quiet = '#56626c';
export const rule = '#dfe5e9';
export const accent = '#0b6a70';
export const pale = '#b9d7d9';
export const middle = '#5f9ea2';
export const alarm = '#a8201a';

/** A coordinate with at most two decimals, never a negative zero. */
export function px(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return String(rounded === 0 ? 0 : rounded);
}

export function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '\ufffd')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');
}

export interface TextLook {
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
  readonly fill?: string;
  readonly size?: number;
  /** White ground behind the words, where they may lie on lines. */
  readonly ground?: boolean;
}

/** Words at a point of their base line. */
export function words(x: number, y: number, text: string, look: TextLook = {}): string {
  const { anchor = 'start', bold = false, fill = ink, size = fontSize, ground = false } = look;
  const width = textWidth(text, size) + 6;
  const left = anchor === 'start' ? x - 3 : anchor === 'middle' ? x - width / 2 : x - width + 3;
  return (
    (ground
      ? `<rect x="${px(left)}" y="${px(y - size)}" width="${px(width)}" height="${px(size + 4)}" fill="#ffffff"/>`
      : '') +
    `<text x="${px(x)}" y="${px(y)}"${anchor === 'start' ? '' : ` text-anchor="${anchor}"`}${bold ? ' font-weight="bold"' : ''}${fill === ink ? '' : ` fill="${fill}"`}${size === fontSize ? '' : ` font-size="${size}"`}>${escapeXml(text)}</text>`
  );
}

export interface LineLook {
  readonly stroke?: string;
  readonly width?: number;
  /** Lengths of dash and gap, for example `6 4`. */
  readonly dash?: string;
}

const strokeOf = ({ stroke = ink, width = 1, dash }: LineLook): string =>
  ` stroke="${stroke}" stroke-width="${width}"${dash === undefined ? '' : ` stroke-dasharray="${dash}"`}`;

export function line(x1: number, y1: number, x2: number, y2: number, look: LineLook = {}): string {
  return `<line x1="${px(x1)}" y1="${px(y1)}" x2="${px(x2)}" y2="${px(y2)}"${strokeOf(look)}/>`;
}

export function polyline(points: readonly (readonly [number, number])[], look: LineLook = {}): string {
  return `<polyline points="${points.map(([x, y]) => `${px(x)},${px(y)}`).join(' ')}" fill="none"${strokeOf(look)}/>`;
}

export function bar(
  x: number,
  y: number,
  width: number,
  height: number,
  look: LineLook & { readonly fill: string },
): string {
  return `<rect x="${px(x)}" y="${px(y)}" width="${px(Math.max(0, width))}" height="${px(Math.max(0, height))}" fill="${look.fill}"${look.stroke ? strokeOf(look) : ''}/>`;
}

/** A reading: a dot within the limits, a square outside. */
export function point(x: number, y: number, outside = false): string {
  return outside
    ? `<rect x="${px(x - 4)}" y="${px(y - 4)}" width="8" height="8" fill="${alarm}"/>`
    : `<circle cx="${px(x)}" cy="${px(y)}" r="3" fill="${accent}"/>`;
}

export function diamond(x: number, y: number): string {
  const corners = [
    [x, y - 6],
    [x + 6, y],
    [x, y + 6],
    [x - 6, y],
  ] as const;
  return `<polygon points="${corners.map(([a, b]) => `${px(a)},${px(b)}`).join(' ')}" fill="#ffffff" stroke="${ink}" stroke-width="1.5"/>`;
}

/** About how wide the words are in Carlito, in pixels; rather too wide than too narrow. */
export function textWidth(text: string, size: number = fontSize): number {
  let width = 0;
  for (const sign of text) {
    if (/[iljI.,:;'|! ]/.test(sign)) width += 0.26;
    else if (/[ftr()[\]-]/.test(sign)) width += 0.34;
    else if (/[mwMW%@…—]/.test(sign)) width += 0.8;
    else if (/[A-Z]/.test(sign)) width += 0.59;
    else if (sign.charCodeAt(0) > 0x2e80) width += 1;
    else width += 0.51;
  }
  return width * size;
}

/** The words, cut with an ellipsis where they are wider than there is room for. */
export function fitted(text: string, room: number, size: number = fontSize): string {
  if (textWidth(text, size) <= room) return text;
  const signs = [...text];
  while (signs.length > 1 && textWidth(`${signs.join('')}…`, size) > room) signs.pop();
  return `${signs.join('').trimEnd()}…`;
}

/** A number as the figures print it. */
export function numberText(value: number, decimals: number): string {
  if (value !== 0 && (Math.abs(value) >= 1e9 || Math.abs(value) < 10 ** -Math.max(decimals, 6)))
    return printedNumber(value.toExponential(2));
  const text = value.toFixed(Math.min(20, Math.max(0, decimals)));
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−');
}

import { type OpenedElement, readXml, XmlFault } from '../returned/xml-events.ts';
import type { PictureOutcome } from './picture.ts';

const svgNamespace = 'http://www.w3.org/2000/svg';

/** Elements of SVG (W3C SVG 1.1 and 2) that draw something and can do nothing else. */
const drawn: ReadonlySet<string> = new Set(
  (
    'svg g defs symbol use path rect circle ellipse line polyline polygon text tspan textPath linearGradient ' +
    'radialGradient stop clipPath mask marker pattern style switch filter feGaussianBlur feOffset feBlend feFlood ' +
    'feComposite feMerge feMergeNode feColorMatrix feDropShadow'
  ).split(' '),
);

/** Elements without a look: words about the picture, and what drawing programs remember. */
const unseen: ReadonlySet<string> = new Set(['title', 'desc', 'metadata']);

const mostElements = 50_000;
const deepest = 100;

/** Whether a value of an attribute or a rule of a style loads or runs nothing: what it points to lies in the picture. */
const isHarmless = (value: string): boolean =>
  !/[@\\<]|javascript:|expression\s*\(|behavior\s*:|-moz-binding/i.test(value) &&
  !/url\s*\(\s*(?!["']?#)/i.test(value);

const escape = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** Pixels of 1/96 inch in a unit of length (CSS Values 3, 6.2). */
const units: Readonly<Record<string, number>> = {
  '': 1,
  px: 1,
  pt: 96 / 72,
  pc: 16,
  in: 96,
  cm: 96 / 2.54,
  mm: 96 / 25.4,
};

const pixels = (length: string | undefined): number | undefined => {
  const [, number = '', unit = ''] =
    /^\s*\+?(\d{1,6}(?:\.\d{1,9})?)\s*([a-z]{0,2})\s*$/.exec(length ?? '') ?? [];
  const factor = Object.hasOwn(units, unit) ? units[unit] : undefined;
  const value = number === '' || factor === undefined ? 0 : Number(number) * factor;
  return value >= 1 ? Math.round(value) : undefined;
};

interface Size {
  /** Value of viewBox. */
  readonly box: string;
  readonly width: number;
  readonly height: number;
}

/** No page shows more; a larger picture is shown smaller. */
const mostPixels = 1_400;

/** Size of a picture by its outermost element; undefined where it gives none. */
const sizeOf = (root: OpenedElement): Size | undefined => {
  const [left = NaN, top = NaN, across = NaN, down = NaN] = (root.attribute('viewBox') ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const isBox = [left, top, across, down].every(Number.isFinite) && across > 0 && down > 0;
  const [width, height] = [pixels(root.attribute('width')), pixels(root.attribute('height'))];
  const wished: readonly [number, number] | undefined =
    width !== undefined && height !== undefined
      ? [width, height]
      : isBox
        ? width !== undefined
          ? [width, (width * down) / across]
          : height !== undefined
            ? [(height * across) / down, height]
            : [across, down]
        : undefined;
  if (!wished) return undefined;
  const scale = Math.min(1, mostPixels / wished[0], mostPixels / wished[1]);
  return {
    box: isBox ? [left, top, across, down].join(' ') : `0 0 ${wished[0]} ${wished[1]}`,
    width: Math.max(1, Math.round(wished[0] * scale)),
    height: Math.max(1, Math.round(wished[1] * scale)),
  };
};

/**
 * Reads an SVG picture and writes it anew with what draws: shapes, text, gradients, styles. Scripts, pages within the
 * picture, pictures from elsewhere and handlers of events are left out, and told.
 */
export const readSvg = (xml: string): PictureOutcome => {
  const out: string[] = [];
  const leftOut = new Set<string>();
  const open: string[] = [];
  let skipped = 0;
  let count = 0;
  let size: Size | undefined;
  let isStyle = false;
  try {
    // Drawing programs name the document type of SVG; one that declares anything is refused.
    readXml(xml.replace(/<!DOCTYPE\s+svg\b[^[>]{0,300}>/i, ''), {
      open: (element) => {
        count += 1;
        if (count > mostElements) throw new XmlFault(`it has more than ${mostElements} elements`);
        if (open.length + skipped > deepest) throw new XmlFault(`its elements nest deeper than ${deepest}`);
        const isSvg = element.namespace === svgNamespace;
        if (open.length === 0 && (!isSvg || element.name !== 'svg'))
          throw new XmlFault('it is no SVG picture');
        if (skipped > 0 || !isSvg || !drawn.has(element.name)) {
          if (skipped === 0 && isSvg && !unseen.has(element.name))
            leftOut.add(`the element "${element.name}"`);
          skipped += 1;
          return;
        }
        const attributes = element.attributes().flatMap(({ namespace, name, value }) => {
          const isLink = name === 'href';
          // What other programs keep in a picture is of other namespaces and has no look.
          if (namespace !== '' && !isLink) return [];
          if (!/^[A-Za-z][\w-]*$/.test(name) || name === 'xmlns') return [];
          // The outermost element gets its size from here.
          if (open.length === 0 && ['width', 'height', 'viewBox', 'x', 'y'].includes(name)) return [];
          if (/^on/i.test(name) || !isHarmless(value) || (isLink && !value.startsWith('#'))) {
            leftOut.add(`the attribute "${name}" of "${element.name}"`);
            return [];
          }
          return [` ${name}="${escape(value)}"`];
        });
        let head = '';
        if (open.length === 0) {
          size = sizeOf(element);
          head = ` xmlns="${svgNamespace}"${size ? ` viewBox="${size.box}" width="${size.width}" height="${size.height}"` : ''}`;
        }
        out.push(`<${element.name}${head}${[...new Set(attributes)].join('')}>`);
        open.push(element.name);
        isStyle = element.name === 'style';
      },
      close: () => {
        if (skipped > 0) {
          skipped -= 1;
          return;
        }
        out.push(`</${open.pop()}>`);
        isStyle = false;
      },
      text: (text) => {
        if (skipped > 0 || open.length === 0) return;
        if (!isStyle) out.push(escape(text));
        else if (isHarmless(text)) out.push(escape(text));
        else leftOut.add('a style sheet that loads something');
      },
    });
  } catch (error) {
    if (!(error instanceof XmlFault)) throw error;
    return {
      ok: false,
      reason: `it cannot be read as an SVG picture: ${error.message.split('\n')[0]}`,
      hint: 'Use an SVG or PNG picture; save a drawing as "plain SVG".',
    };
  }
  if (!size)
    return {
      ok: false,
      reason: 'it is an SVG picture without a size',
      hint: 'Give its root element a viewBox, or width and height.',
    };
  return {
    ok: true,
    picture: { svg: out.join(''), widthPx: size.width, heightPx: size.height, leftOut: [...leftOut] },
  };
};

import { anchorBookmark } from '../../document/anchors.ts';
import type { Figure } from '../../document/model.ts';
import { bookmark, cleanXml, type Manuscript, relate } from './manuscript.ts';
import { field, plainRun } from './runs.ts';

const imageType = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/image';

/** English metric units in a pixel of 1/96 inch. */
const emuPerPixel = 9525;

/** English metric units in a twentieth of a point. */
const emuPerTwip = 635;

/** Height that a figure may have on a page of that text width, with its caption and a line of text above: less on lying pages. */
const mostHeight = (width: number): number => width * (width > 11_000 ? 0.5 : 1.2);

/**
 * Writes a figure and its caption below: the drawing as SVG, with a PNG picture for programs that don't read SVG; a
 * figure of pixels as PNG alone.
 *
 * @throws Error where the document holds a figure but the writer was given nothing to make the picture with
 */
export function writeFigure(figure: Figure, width: number, manuscript: Manuscript): string {
  if (manuscript.rasterise === undefined && figure.png === undefined) {
    throw new Error(
      `The figure "${figure.caption}" needs the option rasterise, which draws its PNG picture.`,
    );
  }
  const number = manuscript.counters.figure();
  const pngPath = `media/figure${number}.png`;
  const related = (target: string): string =>
    relate(manuscript, { type: imageType, target, external: false });
  let drawn = '';
  if (figure.png === undefined) {
    const svgPath = `media/figure${number}.svg`;
    manuscript.media.set(`word/${svgPath}`, new TextEncoder().encode(figure.svg));
    drawn = related(svgPath);
  }
  const picture =
    figure.png === undefined
      ? manuscript.rasterise?.(figure.svg, figure.widthPx, figure.heightPx)
      : Uint8Array.from(atob(figure.png), (character) => character.charCodeAt(0));
  manuscript.media.set(`word/${pngPath}`, picture ?? new Uint8Array());
  const pngId = related(pngPath);
  const svgBlip =
    drawn === ''
      ? ''
      : '<a:extLst><a:ext uri="{96DAC541-7B7A-43D3-8B79-37D633B846F1}">' +
        `<asvg:svgBlip xmlns:asvg="http://schemas.microsoft.com/office/drawing/2016/SVG/main" r:embed="${drawn}"/></a:ext></a:extLst>`;
  const scale = Math.min(
    1,
    (width * emuPerTwip) / (figure.widthPx * emuPerPixel),
    (mostHeight(width) * emuPerTwip) / (figure.heightPx * emuPerPixel),
  );
  const size = `cx="${Math.round(figure.widthPx * emuPerPixel * scale)}" cy="${Math.round(figure.heightPx * emuPerPixel * scale)}"`;
  const name = `Figure ${number}`;
  const properties = `id="${number}" name="${name}" descr="${cleanXml(manuscript, figure.alternative)}"`;
  const drawing =
    `<w:r><w:drawing><wp:inline distT="0" distB="0" distL="0" distR="0"><wp:extent ${size}/><wp:effectExtent l="0" t="0" r="0" b="0"/>` +
    `<wp:docPr ${properties}/><wp:cNvGraphicFramePr><a:graphicFrameLocks noChangeAspect="1"/></wp:cNvGraphicFramePr>` +
    '<a:graphic><a:graphicData uri="http://schemas.openxmlformats.org/drawingml/2006/picture"><pic:pic>' +
    `<pic:nvPicPr><pic:cNvPr ${properties}/><pic:cNvPicPr/></pic:nvPicPr>` +
    `<pic:blipFill><a:blip r:embed="${pngId}">${svgBlip}</a:blip>` +
    `<a:stretch><a:fillRect/></a:stretch></pic:blipFill><pic:spPr><a:xfrm><a:off x="0" y="0"/><a:ext ${size}/></a:xfrm>` +
    '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom></pic:spPr></pic:pic></a:graphicData></a:graphic></wp:inline></w:drawing></w:r>';
  return `<w:p><w:pPr><w:pStyle w:val="FigureBody"/></w:pPr>${drawing}</w:p>${caption(figure, number, manuscript)}`;
}

function caption(figure: Figure, number: number, manuscript: Manuscript): string {
  const name = `_TocFigure${number}`;
  const entry = bookmark(manuscript, name);
  const target =
    figure.anchor === undefined ? undefined : bookmark(manuscript, anchorBookmark(figure.anchor));
  manuscript.figures.push({
    level: 1,
    number: `Figure ${number}`,
    text: figure.caption,
    bookmark: name,
  });
  return (
    // What follows is another matter, and stands apart from the caption above it.
    '<w:p><w:pPr><w:pStyle w:val="Caption"/><w:spacing w:after="240"/><w:jc w:val="center"/></w:pPr>' +
    entry.start +
    (target?.start ?? '') +
    plainRun('Figure ', manuscript) +
    field('SEQ Figure \\* ARABIC', String(number), manuscript) +
    (target?.end ?? '') +
    plainRun(`: ${figure.caption}`, manuscript) +
    `${entry.end}</w:p>`
  );
}

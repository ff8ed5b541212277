import { type Element, elementsOf, withChildren } from './xml-tree.ts';

/**
 * Children of elements in the order that the schema asks for (ISO/IEC 29500-4, wml.xsd). Word reads them in any order,
 * and other programs write them so; what is not listed is left out.
 */
const orders: Readonly<Record<string, string>> = {
  'w:style':
    'name aliases basedOn next link autoRedefine hidden uiPriority semiHidden unhideWhenUsed qFormat locked pPr rPr tblPr trPr tcPr tblStylePr*',
  'w:tblStylePr': 'pPr rPr tblPr trPr tcPr',
  'w:pPr':
    'pStyle keepNext keepLines pageBreakBefore framePr widowControl numPr suppressLineNumbers pBdr shd tabs suppressAutoHyphens kinsoku wordWrap overflowPunct topLinePunct autoSpaceDE autoSpaceDN bidi adjustRightInd snapToGrid spacing ind contextualSpacing mirrorIndents suppressOverlap jc textDirection textAlignment textboxTightWrap outlineLvl rPr',
  'w:pBdr': 'top left bottom right between bar',
  'w:abstractNum': 'nsid multiLevelType tmpl name styleLink numStyleLink lvl*',
  'w:lvl': 'start numFmt lvlRestart pStyle isLgl suff lvlText legacy lvlJc pPr rPr',
  'w:num': 'abstractNumId lvlOverride*',
  'w:lvlOverride': 'startOverride lvl',
  'w:numPr': 'ilvl numId',
  'w:tblPr':
    'tblStyle tblpPr tblOverlap bidiVisual tblStyleRowBandSize tblStyleColBandSize tblW jc tblCellSpacing tblInd tblBorders shd tblLayout tblCellMar tblLook tblCaption tblDescription',
  'w:tblBorders': 'top left start bottom right end insideH insideV',
  'w:tblCellMar': 'top left start bottom right end',
  'w:tcPr':
    'cnfStyle tcW gridSpan hMerge vMerge tcBorders shd noWrap tcMar textDirection tcFitText vAlign hideMark',
  'w:tcBorders': 'top left start bottom right end insideH insideV tl2br tr2bl',
  'w:tcMar': 'top left start bottom right end',
};

const wanted: Readonly<Record<string, readonly { readonly name: string; readonly many: boolean }[]>> =
  Object.fromEntries(
    Object.entries(orders).map(([name, order]) => [
      name,
      order.split(' ').map((each) => ({ name: `w:${each.replace('*', '')}`, many: each.endsWith('*') })),
    ]),
  );

/** Changes under tracking, and languages: the text of a document is in its own language, whatever the house style's was. */
const leftOut =
  /^w:(?:rPrChange|pPrChange|tblPrChange|tcPrChange|trPrChange|tblGridChange|tblPrExChange|numberingChange|cellIns|cellDel|cellMerge|ins|del|lang|rsid)$/;

/** Puts the children of an element, and of those within it, in the order of the schema. */
export const inSchemaOrder = (parent: Element): Element => {
  const children = elementsOf(parent).filter((child) => !leftOut.test(child.name));
  const order = Object.hasOwn(wanted, parent.name) ? wanted[parent.name] : undefined;
  const ordered =
    order === undefined
      ? parent.children.filter((child) => typeof child === 'string' || !leftOut.test(child.name))
      : order.flatMap(({ name, many }) =>
          children.filter((child) => child.name === name).slice(0, many ? undefined : 1),
        );
  return withChildren(
    parent,
    ordered.map((child) => (typeof child === 'string' ? child : inSchemaOrder(child))),
  );
};

/** Properties with one of them set, replaced where it was there. */
export const withProperty = (properties: Element, property: Element): Element =>
  inSchemaOrder(
    withChildren(properties, [
      property,
      ...properties.children.filter((child) => typeof child === 'string' || child.name !== property.name),
    ]),
  );

import type { HouseRelationship } from './house-package.ts';
import { inherited } from './house-styles.ts';
import { inSchemaOrder, withProperty } from './schema-order.ts';
import { readField } from './story-fields.ts';
import {
  childOf,
  type Element,
  element,
  elementsOf,
  type Node,
  valueOf,
  withChildren,
  writeTree,
} from './xml-tree.ts';

/** A running head or foot: XML, with gaps where a document puts its title, number and the like. */
export interface Story {
  readonly pieces: readonly (string | { readonly property: string })[];
  /** Paths of the pictures in the house style's file by relationship id. */
  readonly pictures: ReadonlyMap<string, string>;
  readonly showsPage: boolean;
  /** Shows number and revision of the document. */
  readonly showsNumber: boolean;
}

/** Something that was not taken over, and why. */
export interface Dropped {
  readonly what: string;
  readonly reason: string;
}

export interface StoryOptions {
  readonly relationships: ReadonlyMap<string, HouseRelationship>;
  /** Ids of styles in the file to those in documents. */
  readonly newIds: ReadonlyMap<string, string>;
  readonly styles: ReadonlyMap<string, Element>;
  /** For pages of another width: tabs and tables grow by this factor. */
  readonly stretch: number;
  /** Whether the file holds a part. */
  readonly holds: (path: string) => boolean;
  readonly drop: (dropped: Dropped) => void;
}

/** Marks a gap within the tree; no element of a file has this name. */
const gap = 'gap';

/** Takes a running head over, without whatever reaches out of the file, runs, or belongs to another document. */
export const readStory = (part: Element, options: StoryOptions): Story => {
  const copy = createCopier(options);
  const blocks = copy.blocks(part);
  const pieces: (string | { readonly property: string })[] = [];
  const xml = blocks.map(writeTree).join('');
  // A gap is written as <gap property="title"/>: no text can hold that, for text is escaped.
  for (const [index, piece] of xml.split(/<gap property="([a-z ]*)"\/>/).entries())
    pieces.push(index % 2 === 0 ? piece : { property: piece });
  return {
    pieces,
    pictures: copy.pictures,
    showsPage: copy.shown.has('page'),
    showsNumber: copy.shown.has('document number') && copy.shown.has('revision'),
  };
};

/** Elements whose children stand in their place: links, controls, marks of other programs. */
const unwrapped = new Set([
  'w:hyperlink',
  'w:sdt',
  'w:sdtContent',
  'w:smartTag',
  'w:customXml',
  'w:ins',
  'w:dir',
  'w:bdo',
]);

/** Marks that a running head can do without. */
const silent =
  /^w:(?:bookmarkStart|bookmarkEnd|proofErr|permStart|permEnd|lastRenderedPageBreak|sdtPr|sdtEndPr|smartTagPr|customXmlPr|del|moveFrom|moveTo|commentRange\w+|commentReference|annotationRef|footnoteReference|endnoteReference|move\w+Range\w+|rPr|sectPr|noBreakHyphen|softHyphen)$/;

const runContent = new Set([
  'w:t',
  'w:tab',
  'w:br',
  'w:cr',
  'w:sym',
  'w:ptab',
  'w:noBreakHyphen',
  'w:softHyphen',
]);

const createCopier = (options: StoryOptions) => {
  const { relationships, newIds, styles, stretch, holds, drop } = options;
  const pictures = new Map<string, string>();
  const shown = new Set<string>();
  let drawings = 0;

  /** Style ids in properties, in the order of the schema, without marks of tracked changes. */
  const properties = (parent: Element): Element => {
    const named = (at: Element): Element =>
      withChildren(
        at,
        at.children.flatMap((child) => {
          if (typeof child === 'string') return [];
          if (child.name === 'w:numPr' || child.name === 'w:sectPr' || child.name === 'w:cnfStyle') return [];
          if (!/^w:(?:pStyle|rStyle|tblStyle)$/.test(child.name)) return [named(child)];
          const target = newIds.get(child.attributes['w:val'] ?? '');
          return target === undefined ? [] : [element(child.name, { 'w:val': target })];
        }),
      );
    return inSchemaOrder(named(parent));
  };

  const blocks = (parent: Element): readonly Element[] => {
    const written = elementsOf(parent).flatMap((child): readonly Element[] => {
      if (child.name === 'w:p') return [paragraph(child)];
      if (child.name === 'w:tbl') return [table(child)];
      if (unwrapped.has(child.name)) return blocksOf(child);
      refuse(child);
      return [];
    });
    return written.at(-1)?.name === 'w:p' ? written : [...written, element('w:p')];
  };

  /** Blocks within a wrapper, without the closing paragraph that a story or cell must have. */
  const blocksOf = (parent: Element): readonly Element[] => {
    const bound = boundTo(parent);
    const first = childOf(parent, 'w:sdtContent', 'w:p');
    if (bound !== undefined && first) {
      shown.add(bound);
      const given = properties(childOf(first, 'w:pPr') ?? element('w:pPr'));
      return [
        element('w:p', {}, [...(given.children.length > 0 ? [given] : []), gapRun(bound, lookOf(first))]),
      ];
    }
    return elementsOf(parent).flatMap((child) => {
      if (child.name === 'w:p') return [paragraph(child)];
      if (child.name === 'w:tbl') return [table(child)];
      return unwrapped.has(child.name) ? blocksOf(child) : [];
    });
  };

  /** How the first run within looks. */
  const lookOf = (parent: Element | undefined): Element | undefined =>
    inlines(elementsOf(parent)).flatMap((each) => elementsOf(each, 'w:rPr'))[0];

  const refuse = ({ name }: Element): void => {
    if (!silent.test(name)) drop({ what: name.replace(/^\w+:/, ''), reason: reasonFor(name) });
  };

  const table = (parent: Element): Element => {
    const rows = elementsOf(parent, 'w:tr').map((row) =>
      withChildren({ ...row, attributes: {} }, [
        ...elementsOf(row, 'w:trPr').map(properties),
        ...cellsOf(row).map((cell) =>
          element(cell.name, {}, [
            ...elementsOf(cell, 'w:tcPr').map((each) => wider(properties(each))),
            ...blocks(
              withChildren(
                cell,
                elementsOf(cell).filter(({ name }) => name !== 'w:tcPr'),
              ),
            ),
          ]),
        ),
      ]),
    );
    return withChildren(parent, [
      wider(properties(childOf(parent, 'w:tblPr') ?? element('w:tblPr'))),
      wider(properties(childOf(parent, 'w:tblGrid') ?? element('w:tblGrid'))),
      ...rows,
    ]);
  };

  const cellsOf = (row: Element): readonly Element[] =>
    elementsOf(row).flatMap((child) =>
      child.name === 'w:tc' ? [child] : unwrapped.has(child.name) ? cellsOf(child) : [],
    );

  /** Widths in twentieths of a point, for another page. */
  const wider = (parent: Element): Element => {
    if (stretch === 1) return parent;
    return withChildren(
      parent,
      elementsOf(parent).map((child) => {
        const width = child.attributes['w:w'];
        const isWidth = ['w:tblW', 'w:tcW', 'w:gridCol'].includes(child.name);
        if (!isWidth || width === undefined || !['dxa', undefined].includes(child.attributes['w:type']))
          return child;
        return {
          ...child,
          attributes: { ...child.attributes, 'w:w': String(Math.round(Number(width) * stretch)) },
        };
      }),
    );
  };

  const paragraph = (parent: Element): Element => {
    const given = properties(childOf(parent, 'w:pPr') ?? element('w:pPr'));
    const content = closed(inlines(elementsOf(parent)));
    const hasTab = content.some((run) => elementsOf(run, 'w:tab').length > 0);
    const set = stretch === 1 || !hasTab ? given : widerTabs(given);
    return element('w:p', {}, [...(set.children.length > 0 ? [set] : []), ...content]);
  };

  const widerTabs = (given: Element): Element => {
    const style = valueOf(given, 'w:pStyle') ?? 'Normal';
    const direct = elementsOf(childOf(given, 'w:tabs'), 'w:tab');
    const fromStyle = inherited(styles, style, (each) => childOf(each, 'w:pPr', 'w:tabs'));
    const isClear = (tab: Element): boolean => tab.attributes['w:val'] === 'clear';
    const place = (tab: Element): string => tab.attributes['w:pos'] ?? '0';
    const cleared = new Set(direct.filter(isClear).map(place));
    const old = elementsOf(fromStyle, 'w:tab').filter((tab) => !isClear(tab));
    const stops = [...old, ...direct].filter((tab) => !isClear(tab) && !cleared.has(place(tab)));
    if (stops.length === 0) return given;
    const moved = stops.map((tab) => ({
      ...tab,
      attributes: { ...tab.attributes, 'w:pos': String(Math.round(Number(place(tab)) * stretch)) },
    }));
    const places = new Set(moved.map(place));
    const clears = old
      .filter((tab) => !places.has(place(tab)))
      .map((tab) => element('w:tab', { 'w:val': 'clear', 'w:pos': place(tab) }));
    return withProperty(given, element('w:tabs', {}, [...clears, ...moved]));
  };

  /** Runs, with what wraps them taken away and fields judged. */
  const inlines = (children: readonly Element[]): readonly Element[] =>
    children.flatMap((child): readonly Element[] => {
      if (child.name === 'w:r') return [child];
      if (child.name === 'w:fldSimple')
        return fieldRuns(child.attributes['w:instr'] ?? '', childOf(child, 'w:r', 'w:rPr'));
      if (child.name === 'w:sdt') {
        const bound = boundTo(child);
        if (bound === undefined) return inlines(elementsOf(child));
        shown.add(bound);
        return [gapRun(bound, lookOf(childOf(child, 'w:sdtContent')))];
      }
      if (child.name === 'w:hyperlink' && relationships.get(child.attributes['r:id'] ?? '')?.external)
        drop({ what: 'a link', reason: 'it leads out of the file; its words are kept' });
      if (unwrapped.has(child.name)) return inlines(elementsOf(child));
      if (child.name !== 'w:pPr') refuse(child);
      return [];
    });

  /** The runs of a paragraph, with complex fields (begin, instruction, separate, result, end) replaced by judged ones. */
  const closed = (runs: readonly Element[]): readonly Element[] => {
    const result: Element[] = [];
    let depth = 0;
    let inResult = false;
    let instruction = '';
    let look: Element | undefined;
    for (const run of runs) {
      let plain: Node[] = [];
      const flush = (): void => {
        const kept = content(plain);
        if (kept.length > 0)
          result.push(element('w:r', {}, [...elementsOf(run, 'w:rPr').map(properties), ...kept]));
        plain = [];
      };
      for (const child of elementsOf(run)) {
        const mark = child.name === 'w:fldChar' ? child.attributes['w:fldCharType'] : undefined;
        if (mark === 'begin') {
          if (depth === 0) {
            flush();
            instruction = '';
            inResult = false;
            look = childOf(run, 'w:rPr');
          }
          depth += 1;
        } else if (mark === 'separate') {
          if (depth === 1) inResult = true;
        } else if (mark === 'end') {
          depth = Math.max(0, depth - 1);
          if (depth === 0 && instruction !== '') result.push(...fieldRuns(instruction, look));
          if (depth === 0) instruction = '';
        } else if (depth > 0) {
          if (child.name === 'w:instrText' && depth === 1 && !inResult)
            instruction += child.children.filter((each) => typeof each === 'string').join('');
          // The look of the result, which the first run of it has.
          if (inResult && depth === 1 && child.name === 'w:rPr') look = child;
        } else plain.push(child);
      }
      flush();
    }
    return result.filter((run) => run.children.length > 0);
  };

  const content = (children: readonly Node[]): readonly Node[] =>
    children.flatMap((child): readonly Node[] => {
      if (typeof child === 'string') return [];
      if (runContent.has(child.name))
        return [child.name === 'w:t' ? { ...child, attributes: { 'xml:space': 'preserve' } } : child];
      if (child.name === 'w:pgNum') {
        shown.add('page');
        return [child];
      }
      if (child.name === 'w:drawing' || child.name === 'w:pict') return picture(child);
      refuse(child);
      return [];
    });

  const run = (look: Element | undefined, ...children: readonly Node[]): Element =>
    element('w:r', {}, [...(look ? [properties(look)] : []), ...children]);

  const gapRun = (property: string, look: Element | undefined): Element =>
    run(look, element('w:t', { 'xml:space': 'preserve' }, [element(gap, { property })]));

  const fieldRuns = (instruction: string, look: Element | undefined): readonly Element[] => {
    const choice = readField(instruction);
    if (choice.kind === 'refused') {
      drop({
        what: `the field ${choice.word}`,
        reason: 'it is none of the fields that a running head of a document may have',
      });
      return [];
    }
    if (choice.kind === 'page') shown.add(choice.instruction.startsWith('PAGE') ? 'page' : 'pages');
    if (choice.kind === 'property') shown.add(choice.name === 'keywords' ? 'document number' : choice.name);
    const mark = (type: string): Element => run(look, element('w:fldChar', { 'w:fldCharType': type }));
    const text = element('w:instrText', { 'xml:space': 'preserve' }, [` ${choice.instruction} `]);
    const result =
      choice.kind === 'property'
        ? [gapRun(choice.name, look)]
        : choice.kind === 'page'
          ? [run(look, element('w:t', {}, ['1']))]
          : [];
    return [mark('begin'), run(look, text), mark('separate'), ...result, mark('end')];
  };

  /** A picture or drawing, where all that it shows is in the file. */
  const picture = (parent: Element): readonly Element[] => {
    let fault: Dropped | undefined;
    const copied = (at: Element): Element => {
      const attributes: Record<string, string> = {};
      for (const [name, value] of Object.entries(at.attributes)) {
        if (!name.startsWith('r:') && !(at.name === 'v:imagedata' && name === 'o:relid')) {
          if (name !== 'o:href' && name !== 'href' && name !== 'src') attributes[name] = value;
          continue;
        }
        const target = relationships.get(value);
        if (target === undefined) {
          if (name === 'r:embed') fault ??= { what: 'a picture', reason: 'the file does not hold it' };
        } else if (target.external)
          fault ??= { what: 'a picture', reason: 'it is linked, and lies outside of the file' };
        else if (target.type !== 'image' || !pictureKinds.test(target.target) || !holds(target.target))
          fault ??= {
            what: 'a picture',
            reason: 'its kind is none of PNG, JPEG, GIF, BMP, TIFF, EMF and WMF',
          };
        else {
          pictures.set(value, target.target);
          attributes[name] = value;
        }
      }
      if (at.name === 'wp:docPr' || at.name === 'pic:cNvPr') {
        if (at.name === 'wp:docPr') drawings += 1;
        attributes['id'] = String(drawings);
        attributes['descr'] = attributes['descr'] || 'Picture of the house style';
      }
      if (at.name === 'w:txbxContent') return withChildren(at, blocks(at));
      return element(
        at.name,
        attributes,
        at.children.flatMap((child): readonly Node[] => {
          if (typeof child === 'string') return [child];
          if (
            /^(?:a:extLst|a:hlinkClick|a:hlinkHover|o:OLEObject|o:signatureline|w:control|w:movie)$/.test(
              child.name,
            )
          )
            return [];
          return [copied(child)];
        }),
      );
    };
    const copy = copied(parent);
    const isEmpty = elementsOf(copy).length === 0;
    if (fault ?? isEmpty) {
      drop(fault ?? { what: 'a drawing', reason: 'it has no form that every program can show' });
      return [];
    }
    return [copy];
  };

  return { blocks, pictures, shown };
};

/** Kinds of pictures that are taken over. */
const pictureKinds = /\.(?:png|jpe?g|gif|bmp|tiff?|emf|wmf)$/i;

const reasonFor = (name: string): string =>
  /^w:(?:object|control|altChunk|subDoc)$/.test(name)
    ? 'it holds or loads a thing of another program'
    : 'a running head of a document does without it';

/** The core property (ISO/IEC 29500-2, core properties part) that a content control shows. */
const boundTo = (control: Element): string | undefined => {
  const xpath = childOf(control, 'w:sdtPr', 'w:dataBinding')?.attributes['w:xpath'] ?? '';
  const name = /:(title|subject|creator|keywords)(?:\[1\])?$/.exec(xpath.trim())?.[1];
  return name === 'creator' ? 'author' : name;
};

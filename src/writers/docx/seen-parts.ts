import { makerProperty, productProperty, wordsProperty } from './properties.ts';
import { readEntities, runningText } from './running-text.ts';

/**
 * What a reader sees of a Word file besides its words, told part by part, so that an edited copy is known by it. Word
 * and LibreOffice both use the prefix `w`, and save all of this as it was; fonts, colours and layout they write anew.
 */

/** The parts of a Word file by their paths. */
export interface PackageParts {
  readonly part: (path: string) => string | undefined;
  readonly bytes: (path: string) => Uint8Array | undefined;
}

/** What is compared. Each has a property of its own, so that a report can say which one differs. */
export const seenKinds = ['passages', 'pictures', 'drawings', 'heads', 'particulars'] as const;
export type SeenKind = (typeof seenKinds)[number];

/** Names of the properties that hold the digests. */
export const seenProperties: Readonly<Record<SeenKind, string>> = {
  passages: 'Hidden and struck passages digest',
  pictures: 'Pictures digest',
  drawings: 'Drawings digest',
  heads: 'Running heads digest',
  particulars: 'Particulars digest',
};

/** Custom properties that tell which document in which state it is. Others may be added by any program. */
const particulars = [
  'Document Number',
  'Revision',
  'Record',
  makerProperty,
  productProperty,
  'Document',
  'Source',
  'Stated as of',
  'Content digest',
  'Text digest',
  'Git revision',
  'House style',
  'House style digest',
  'Compiled with',
  wordsProperty,
] as const;

/** Core properties with the same purpose: title, product or subtitle, number and status. */
const coreParticulars = ['dc:title', 'dc:subject', 'cp:keywords', 'cp:contentStatus'] as const;

type Digest = (bytes: Uint8Array) => string;

interface Target {
  readonly type: string;
  readonly path: string;
}

const attributeOf = (tag: string, name: string): string | undefined => {
  const [, value] = new RegExp(`\\s${name}="([^"]*)"`).exec(tag) ?? [];
  if (value === undefined) return undefined;
  const read = value.replace(/&#(\d{1,7});/g, (_, code: string) =>
    String.fromCodePoint(Math.min(Number(code), 0x10ffff)),
  );
  // Programs write line breaks within attributes in their own ways.
  return readEntities(read).replace(/\s+/g, ' ').trim();
};

/** The targets of a part's relationships by their ids; of the document's where no other is named. */
const targetsOf = (parts: PackageParts, path = 'word/document.xml'): ReadonlyMap<string, Target> =>
  new Map(
    [
      ...(parts.part(path.replace(/([^/]*)$/, '_rels/$1.rels')) ?? '').matchAll(/<Relationship\s[^<>]*>/g),
    ].map(([tag]): [string, Target] => [
      attributeOf(tag, 'Id') ?? '',
      {
        type: (attributeOf(tag, 'Type') ?? '').replace(/^.*\//, ''),
        path: `word/${attributeOf(tag, 'Target') ?? ''}`.replace(/^word\/\//, ''),
      },
    ]),
  );

const isOn = (attributes: string): boolean => !/\sw:val="(?:0|false|off|none)"/.test(attributes);

/** Whether XML holds any mark that hides or strikes, on or off. */
const holdsMarks = (xml: string): boolean => /<w:(?:vanish|d?strike|color|sz)[\s/>]/.test(xml);

/** Colours in which nobody reads a word on paper, as Word writes them: at least seven eighths of each light. */
const isPaperWhite = (attributes: string): boolean =>
  /^(?:[EF][0-9A-F]){3}$/i.test(attributeOf(attributes, 'w:val') ?? '');

/** Largest size that nobody reads, in half points: 3 points. */
const tiniest = 6;

/** Styles that hide or strike, with what they do. */
const markingStyles = (xml: string): ReadonlyMap<string, string> => {
  const styles = new Map<string, string>();
  let id = '';
  for (const [, style, mark = '', attributes = ''] of xml.matchAll(
    /<w:(?:(style)|(vanish|strike|dstrike))(?=[\s/>])([^<>]*)>/g,
  )) {
    if (style !== undefined) id = attributeOf(attributes, 'w:styleId') ?? '';
    else if (isOn(attributes)) styles.set(id, joined(styles.get(id) ?? '', mark));
  }
  return styles;
};

const joined = (...marks: readonly string[]): string =>
  [...new Set(marks.flatMap((each) => each.split(' ')))]
    .filter((each) => each !== '')
    .sort()
    .join(' ');

const runTokens =
  /<(\/?)w:(tr|tblHeader|p|r|pStyle|rStyle|vanish|strike|dstrike|color|sz|t|delText|rPrChange|pPrChange)(?=[\s/>])([^<>]*)>|([^<]+)/g;

/**
 * Passages that are hidden or struck through, by themselves or by their style, or that are written in the colour of
 * paper or too small to be read, a line for each. Head rows of tables may be white on dark.
 */
const markedPassages = (parts: PackageParts): string => {
  const styles = markingStyles(parts.part('word/styles.xml') ?? '');
  const lines: string[] = [];
  for (const path of ['word/document.xml', 'word/footnotes.xml']) {
    const xml = parts.part(path) ?? '';
    if (styles.size === 0 && !holdsMarks(xml)) continue;
    let ofParagraph = '';
    let ofRun = '';
    let last = '';
    let isInRun = false;
    let isInHeadRow = false;
    let isText = false;
    /** Forms that tracked changes keep of earlier days. */
    let earlier = 0;
    for (const [, closing, name, attributes = '', text] of xml.matchAll(runTokens)) {
      if (text !== undefined) {
        if (!isText) continue;
        const marks = joined(ofRun, ofParagraph);
        if (marks !== '' && marks === last) lines.push(`${lines.pop() ?? ''}${text}`);
        else if (marks !== '') lines.push(`${marks}: ${text}`);
        last = marks;
      } else if (name === 'rPrChange' || name === 'pPrChange') {
        if (!attributes.endsWith('/')) earlier += closing === '/' ? -1 : 1;
      } else if (earlier > 0) {
      } else if (name === 'tr') isInHeadRow = false;
      else if (name === 'tblHeader') isInHeadRow = isOn(attributes);
      else if (name === 'p') ofParagraph = last = '';
      else if (name === 'pStyle') ofParagraph = styles.get(attributeOf(attributes, 'w:val') ?? '') ?? '';
      else if (name === 'r') {
        isInRun = closing !== '/';
        ofRun = '';
      } else if (name === 't' || name === 'delText') isText = closing !== '/' && !attributes.endsWith('/');
      else if (!isInRun) continue;
      else if (name === 'rStyle')
        ofRun = joined(ofRun, styles.get(attributeOf(attributes, 'w:val') ?? '') ?? '');
      else if (name === 'color') {
        if (!isInHeadRow && isPaperWhite(attributes)) ofRun = joined(ofRun, 'white');
      } else if (name === 'sz') {
        if (Number(attributeOf(attributes, 'w:val')) <= tiniest) ofRun = joined(ofRun, 'tiny');
      } else if (isOn(attributes)) ofRun = joined(ofRun, name ?? '');
    }
  }
  return lines.map((line) => readEntities(line).replace(/\s+/g, ' ').trim()).join('\n');
};

const hexDigits = (bytes: Uint8Array | undefined, digestOf: Digest): string =>
  bytes === undefined ? 'none' : digestOf(bytes);

/** Alternative texts and bytes of the pictures in the order of the text, and whatever else is drawn or taken in. */
const pictures = (parts: PackageParts, digestOf: Digest): string => {
  const targets = targetsOf(parts);
  const xml = parts.part('word/document.xml') ?? '';
  return [
    ...xml.matchAll(
      /<(?:wp:docPr|a:blip|v:imagedata|a:graphicData|w:altChunk|w:object|w:subDoc)(?=[\s/>])[^<>]*>/g,
    ),
  ]
    .map(([tag]) => {
      const id = attributeOf(tag, 'r:embed') ?? attributeOf(tag, 'r:id') ?? attributeOf(tag, 'r:link');
      if (id !== undefined) return `part ${hexDigits(parts.bytes(targets.get(id)?.path ?? ''), digestOf)}`;
      if (tag.startsWith('<wp:docPr')) return `text ${attributeOf(tag, 'descr') ?? ''}`;
      return `drawn ${attributeOf(tag, 'uri') ?? tag.split(/[\s>]/)[0]}`;
    })
    .join('\n');
};

/** Bytes of the drawings that programs show in place of the pictures where they can. Others leave them out as they save. */
const drawingsOf = (parts: PackageParts, digestOf: Digest): string | undefined => {
  const targets = targetsOf(parts);
  const drawn = [...(parts.part('word/document.xml') ?? '').matchAll(/<asvg:svgBlip\s[^<>]*>/g)].map(
    ([tag]) => hexDigits(parts.bytes(targets.get(attributeOf(tag, 'r:embed') ?? '')?.path ?? ''), digestOf),
  );
  return drawn.length === 0 ? undefined : drawn.join('\n');
};

/** Numbers of pages are worked out anew by any program; number, revision and title are what somebody may have changed. */
const isNoPageNumber = (instruction: string): boolean =>
  !/^\s*(?:PAGE|NUMPAGES|SECTIONPAGES)\b/.test(instruction);

/** Digests of the pictures of a running head or foot, such as the maker's logo. */
const logos = (parts: PackageParts, path: string, digestOf: Digest): readonly string[] => {
  const targets = targetsOf(parts, path);
  return [...(parts.part(path) ?? '').matchAll(/<(?:a:blip|v:imagedata)\s[^<>]*>/g)].flatMap(([tag]) => {
    const id = attributeOf(tag, 'r:embed') ?? attributeOf(tag, 'r:id');
    return id === undefined ? [] : [hexDigits(parts.bytes(targets.get(id)?.path ?? ''), digestOf)];
  });
};

/** The words and pictures of all running heads and feet; how many parts hold them is up to the program. */
const heads = (parts: PackageParts, digestOf: Digest): string => {
  const texts = [...targetsOf(parts).values()]
    .filter(({ type }) => type === 'header' || type === 'footer')
    .flatMap(({ type, path }) => [
      `${type}: ${runningText(parts.part(path) ?? '', isNoPageNumber)}`,
      ...logos(parts, path, digestOf).map((digest) => `${type} picture: ${digest}`),
    ]);
  return [...new Set(texts)]
    .filter((text) => !/^\w+: $/.test(text))
    .sort()
    .join('\n\n');
};

const customProperties = (xml: string): ReadonlyMap<string, string> => {
  const properties = new Map<string, string>();
  let name = '';
  for (const [, attributes, text] of xml.matchAll(/<property(\s[^<>]*)>|<[^<>]*>|([^<]+)/g)) {
    if (attributes !== undefined) name = attributeOf(attributes, 'name') ?? '';
    else if (text !== undefined)
      properties.set(name, `${properties.get(name) ?? ''}${readEntities(text)}`.trim());
  }
  return properties;
};

const particularsOf = (parts: PackageParts): string => {
  const custom = customProperties(parts.part('docProps/custom.xml') ?? '');
  const core = parts.part('docProps/core.xml') ?? '';
  return [
    ...particulars.map((name) => `${name}: ${custom.get(name) ?? ''}`),
    ...coreParticulars.map((name) => {
      const [, value = ''] = new RegExp(`<${name}(?:\\s[^<>]*)?>([^<]*)</${name}>`).exec(core) ?? [];
      return `${name}: ${readEntities(value).trim()}`;
    }),
  ].join('\n');
};

/** The digests of what a reader sees besides the words. A file without drawings has none of them. */
export const seenDigests = (
  parts: PackageParts,
  digestOf: Digest,
): Readonly<Partial<Record<SeenKind, string>>> => {
  const of = (text: string): string => digestOf(new TextEncoder().encode(text));
  const drawings = drawingsOf(parts, digestOf);
  return {
    passages: of(markedPassages(parts)),
    pictures: of(pictures(parts, digestOf)),
    ...(drawings === undefined ? {} : { drawings: of(drawings) }),
    heads: of(heads(parts, digestOf)),
    particulars: of(particularsOf(parts)),
  };
};

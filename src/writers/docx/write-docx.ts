import type { Block, Document } from '../../document/model.ts';
import { forEachBlock } from '../../document/numbering.ts';
import type { HouseStyle } from '../../house/house-style.ts';
import { houseNamespaces } from '../../house/xml-tree.ts';
import { closeRecord, paragraph, writeBlocks } from './blocks.ts';
import { hasContents, writeContents } from './contents.ts';
import { writeCover } from './cover.ts';
import { writeFootnotes } from './footnotes.ts';
import { writeNumbering } from './lists.ts';
import { textWidth } from './look.ts';
import { createManuscript, type Manuscript, type Rasterise } from './manuscript.ts';
import { packageRelationships, packParts, partRelationship, writeRelationships } from './package.ts';
import { estimatePages } from './page-numbers.ts';
import {
  wordsProperty,
  writeApplicationProperties,
  writeCoreProperties,
  writeCustomProperties,
} from './properties.ts';
import { type RunningPart, writeRunningParts } from './running-parts.ts';
import { runningText } from './running-text.ts';
import { plainRun } from './runs.ts';
import { sectionProperties, stretches, withSectionEnd } from './sections.ts';
import { type PackageParts, type SeenKind, seenDigests, seenProperties } from './seen-parts.ts';
import { writeSettings } from './settings.ts';
import { writeStyles } from './styles.ts';
import { afterTable, writeParticulars } from './table.ts';
import { wordNamespaces, xmlHead } from './xml.ts';

export interface DocxOptions {
  /** Draws the PNG picture of a figure. Needed where the document holds figures. */
  readonly rasterise?: Rasterise;
  /**
   * Documents with more table cells than this leave the page numbers to Word, since laying out takes seconds for
   * each thousand rows. Default 6,000.
   */
  readonly mostCellsToLayOut?: number;
  /** SHA-256 in hexadecimal digits. Where given, the file carries digests of its own words and of what else a reader sees, by which an edited copy is known. */
  readonly digestOf?: (bytes: Uint8Array) => string;
  /** The maker's own styles, running heads and paper, in place of ours. */
  readonly house?: HouseStyle;
}

export interface WrittenDocx {
  readonly bytes: Uint8Array;
  /** What the reader of the run should know, for example that Word is left to fill in the page numbers. */
  readonly notices: readonly string[];
}

/**
 * Writes a document as a Word file (ISO/IEC 29500, Transitional). The same document gives the same bytes.
 *
 * @throws Error where the document holds a figure and no `rasterise` was given
 */
export async function writeDocx(document: Document, options: DocxOptions = {}): Promise<WrittenDocx> {
  const written = writeText(document, options);
  const notices: string[] = [];
  const finished = (numbers: Numbers): WrittenDocx => ({
    bytes: packParts(writeParts(written, numbers, options.digestOf)),
    notices,
  });
  if (written.manuscript.unprintable > 0) {
    notices.push(`${document.id}: characters that XML can't hold were replaced by U+FFFD`);
  }
  const noPages: ReadonlyMap<string, string> = new Map();
  if (countCells(document.blocks) > (options.mostCellsToLayOut ?? 6000)) {
    notices.push(
      `${document.id}: the page numbers of the contents list are left to Word, for the tables are large`,
    );
    return finished({ pages: noPages, dirty: true });
  }
  // Only a contents list needs the pages; the number of pages in the foot is worked out by every program by itself.
  if (!hasContents(written.manuscript)) return finished({ pages: noPages, dirty: false });
  const { pages, doubts } = await estimatePages(writeParts(written, { pages: noPages, dirty: true }));
  if (doubts.length > 0) {
    notices.push(
      `${document.id}: Word will offer to work out the page numbers anew, because of ${doubts.join(', ')}`,
    );
  }
  return finished({ pages, dirty: doubts.length > 0 });
}

/** What an edited copy is known by: the running text of body and footnotes. */
export const wordsOf = (body: string, footnotes: string): Uint8Array =>
  new TextEncoder().encode(`${runningText(body)}\n\n${runningText(footnotes)}`);

/** What a document is written as, but for what names pages. */
interface Written {
  readonly manuscript: Manuscript;
  readonly running: readonly RunningPart[];
  readonly cover: string;
  readonly text: string;
  readonly footnotes: string;
}

/** The pages that contents list and foot name, and whether Word is asked to work them out when the file is opened. */
interface Numbers {
  readonly pages: ReadonlyMap<string, string>;
  readonly dirty: boolean;
}

function writeText(document: Document, options: DocxOptions): Written {
  const manuscript = createManuscript(document, {
    pages: new Map(),
    rasterise: options.rasterise,
    house: options.house,
  });
  const running = writeRunningParts(manuscript);
  const text = writeBody(manuscript, running);
  // Written after the text, which gathers what is unprintable, and put before it.
  const cover = withSectionEnd(writeCover(manuscript), manuscript.paper.portrait, {
    running: false,
    parts: running,
  });
  return { manuscript, running, cover, text, footnotes: writeFootnotes(manuscript) };
}

/** The parts of the file by their paths. */
function writeParts(
  written: Written,
  { pages, dirty }: Numbers,
  digestOf?: DocxOptions['digestOf'],
): ReadonlyMap<string, string | Uint8Array> {
  const { cover, text, footnotes } = written;
  const manuscript: Manuscript = { ...written.manuscript, pages };
  const { document, house, colours, paper } = manuscript;
  const running = pages.size === 0 ? written.running : writeRunningParts(manuscript);
  // The text has gathered the headings and captions.
  const contents = hasContents(manuscript)
    ? withSectionEnd(writeContents(manuscript, { dirty }), paper.portrait, { running: true, parts: running })
    : '';
  const body = cover + contents + text;
  const digests = new Map(digestOf ? [[wordsProperty, digestOf(wordsOf(body, footnotes))]] : []);
  const parts = new Map<string, string | Uint8Array>([
    ['word/document.xml', `${xmlHead}<w:document ${wordNamespaces}><w:body>${body}</w:body></w:document>`],
    ['word/footnotes.xml', footnotes],
    ['word/numbering.xml', writeNumbering(manuscript.lists, colours, house)],
    [
      'word/styles.xml',
      writeStyles({ language: document.language, colours, textWidth: textWidth(paper.portrait), house }),
    ],
    ['word/settings.xml', writeSettings(document.language, house)],
    ...running.map(({ file, xml }) => [`word/${file}`, xml] as const),
    ['docProps/core.xml', writeCoreProperties(manuscript)],
    ['docProps/app.xml', writeApplicationProperties(manuscript)],
    ['docProps/custom.xml', writeCustomProperties(manuscript, digests)],
    ['_rels/.rels', packageRelationships()],
  ]);
  const fixed = [
    partRelationship('rId1', 'styles', 'styles.xml'),
    partRelationship('rId2', 'numbering', 'numbering.xml'),
    partRelationship('rId3', 'settings', 'settings.xml'),
    partRelationship('rId4', 'footnotes', 'footnotes.xml'),
    ...running.map(({ id, type, file }) => partRelationship(id, type, file)),
  ];
  for (const { file, relationships } of running)
    if (relationships.length > 0) parts.set(`word/_rels/${file}.rels`, writeRelationships(relationships));
  if (house?.theme !== undefined) {
    fixed.push(partRelationship('rIdTheme', 'theme', 'theme/theme1.xml'));
    parts.set('word/theme/theme1.xml', xmlHead + withNamespaces(house.theme));
  }
  parts.set(
    'word/_rels/document.xml.rels',
    writeRelationships([...fixed, ...manuscript.relationships.document]),
  );
  if (manuscript.relationships.footnotes.length > 0) {
    parts.set('word/_rels/footnotes.xml.rels', writeRelationships(manuscript.relationships.footnotes));
  }
  for (const [path, bytes] of manuscript.media) parts.set(path, bytes);
  if (digestOf) {
    for (const [kind, digest] of Object.entries(seenDigests(readable(parts), digestOf)))
      digests.set(seenProperties[kind as SeenKind], digest);
    parts.set('docProps/custom.xml', writeCustomProperties(manuscript, digests));
  }
  return parts;
}

const readable = (parts: ReadonlyMap<string, string | Uint8Array>): PackageParts => ({
  part: (path) => {
    const part = parts.get(path);
    return typeof part === 'string' ? part : undefined;
  },
  bytes: (path) => {
    const part = parts.get(path);
    return typeof part === 'string' ? undefined : part;
  },
});

/** The root of a part that the house style gave, with the namespaces that it uses. */
const withNamespaces = (xml: string): string => xml.replace(/^<[\w:]+/, (tag) => `${tag} ${houseNamespaces}`);

function writeBody(manuscript: Manuscript, parts: readonly RunningPart[]): string {
  const { document, paper } = manuscript;
  const all = stretches(document.blocks, paper);
  return all
    .map(({ page, blocks }, index) => {
      const frame = {
        width: textWidth(page),
        style: undefined,
        listDepth: 0,
        nested: false,
      };
      const written = writeBlocks(blocks, frame, manuscript);
      if (index < all.length - 1) return withSectionEnd(written, page, { running: true, parts });
      const origin = closeRecord(manuscript) + writeOrigin(manuscript, textWidth(page));
      return written + origin + sectionProperties(page, { running: true, parts });
    })
    .join('');
}

/**
 * The paragraph that has to follow the last table, of one point: at its usual height it would open an empty page where
 * the table fills one.
 */
const endOfText =
  '<w:p><w:pPr><w:pStyle w:val="AfterTable"/><w:spacing w:before="0" w:after="0" w:line="20" w:lineRule="exact"/></w:pPr></w:p>';

/** Where the document came from: the last thing in it. */
function writeOrigin(manuscript: Manuscript, width: number): string {
  const { provenance } = manuscript.document;
  if (provenance.length === 0) return '';
  const entries = provenance.map(({ name, value }) => ({
    name,
    value: [{ kind: 'text' as const, value }],
  }));
  return (
    paragraph('<w:pStyle w:val="PartTitle"/>', plainRun('Origin of this document', manuscript)) +
    writeParticulars(
      { kind: 'particulars', entries },
      width,
      manuscript,
      'Where this document came from',
    ).replace(afterTable, endOfText)
  );
}

function countCells(blocks: readonly Block[]): number {
  let cells = 0;
  forEachBlock(blocks, (block) => {
    if (block.kind === 'table') cells += block.rows.length * block.columns.length;
  });
  return cells;
}

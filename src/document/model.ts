/**
 * The document model: what a deliverable says, independent of any file format.
 *
 * Views and the Markdown compiler make it; writers turn it into Word, HTML or CSV. It knows nothing of
 * records: a record appears only as an id (`RecordReference`, `recordId` on a block), so that writers can
 * set bookmarks and links.
 */

/** Text with marks. */
export interface Text {
  readonly kind: 'text';
  readonly value: string;
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly strike?: boolean;
  /** Words that another state of the text did not have; `strike` marks those that it had. */
  readonly inserted?: boolean;
  readonly code?: boolean;
  /** A meaning that writers may show by weight or colour as well as by the word itself, never by colour alone. */
  readonly tone?: Tone;
}

export type Tone = 'good' | 'bad' | 'caution' | 'quiet';

/** A link out of the document. Only http, https and mailto targets; the compiler refuses others. */
export interface ExternalLink {
  readonly kind: 'external-link';
  readonly target: string;
  readonly children: readonly Inline[];
}

/**
 * A link to another file of the same folder, below it or beside it: a deliverable, raw data. Written only where `isNearbyFile` holds
 * for its path; the words stay otherwise.
 */
export interface FileLink {
  readonly kind: 'file-link';
  /** Path from the folder in which this document lies, with forward slashes. */
  readonly path: string;
  /** The path that a page in HTML leads to, where that is another one. */
  readonly inHtml?: string;
  /** A record that the file shows: the link leads to its bookmark there. */
  readonly recordId?: string;
  /** A heading of the file by its anchor, where the link leads to one. */
  readonly anchor?: string;
  readonly children: readonly Inline[];
}

/**
 * A record's id in prose or in a cell: a link to the record's anchor where this document has one, else to the file of the
 * same folder that shows it, else plain text.
 */
export interface RecordReference {
  readonly kind: 'record-reference';
  readonly id: string;
}

/** "Table 2", "Figure 1", "section 3.1": number and link are the writer's work. */
export interface CrossReference {
  readonly kind: 'cross-reference';
  /** The `anchor` of a heading, table or figure in the same document. */
  readonly anchor: string;
  /** The link's own words, where the author gave some in place of label and number. */
  readonly children?: readonly Inline[];
}

export interface LineBreak {
  readonly kind: 'line-break';
}

export interface FootnoteReference {
  readonly kind: 'footnote-reference';
  /** Index into `Document.footnotes`. Each footnote is referred to once, and footnotes hold no footnotes. */
  readonly index: number;
}

/** A place in a table cell or paragraph where records lie next to each other: kept on separate lines. */
export type Inline =
  | Text
  | ExternalLink
  | FileLink
  | RecordReference
  | CrossReference
  | LineBreak
  | FootnoteReference;

export interface Heading {
  readonly kind: 'heading';
  /** 1 is the highest level below the document's title. */
  readonly level: 1 | 2 | 3 | 4 | 5 | 6;
  readonly children: readonly Inline[];
  readonly anchor?: string;
  /** The record that this heading opens: becomes the bookmark that references and reviewers' comments use. */
  readonly recordId?: string;
}

export interface Paragraph {
  readonly kind: 'paragraph';
  readonly children: readonly Inline[];
  /** A line that leads in what follows, and must not stand alone at the foot of a page. */
  readonly leadsIn?: boolean;
  readonly recordId?: string;
}

export interface List {
  readonly kind: 'list';
  readonly ordered: boolean;
  readonly start?: number;
  readonly items: readonly ListItem[];
}

export interface ListItem {
  /** Task-list state, where the item has one. */
  readonly checked?: boolean;
  readonly blocks: readonly Block[];
}

export interface Column {
  readonly title: string;
  /** Share of the table's width; shares are normalised by the writer. */
  readonly width: number;
  readonly align?: 'left' | 'center' | 'right';
}

export interface Cell {
  readonly children: readonly Inline[];
  /** Rows that this cell covers downwards; the covered cells are left out of the following rows. Default 1. */
  readonly rowSpan?: number;
}

export interface Row {
  readonly cells: readonly Cell[];
  readonly recordId?: string;
}

export interface Table {
  readonly kind: 'table';
  /** Captioned tables are numbered "Table n"; a table without a caption has no number. */
  readonly caption?: string;
  readonly anchor?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** What a screen reader says of the table. Default: the caption. */
  readonly description?: string;
}

/** Two columns of name and value: particulars of one record. */
export interface Particulars {
  readonly kind: 'particulars';
  readonly entries: readonly {
    readonly name: string;
    readonly value: readonly Inline[];
  }[];
}

export interface Figure {
  readonly kind: 'figure';
  readonly caption: string;
  readonly anchor?: string;
  /** The drawing; empty where the figure is made of pixels. */
  readonly svg: string;
  /** Bytes of a PNG picture in base64, in place of a drawing. */
  readonly png?: string;
  /** The file that it was read from, and the digest of its bytes there, where it was not drawn from records. */
  readonly source?: { readonly file: string; readonly sha256: string };
  /** Alternative text: required, figures without it are refused. */
  readonly alternative: string;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface Code {
  readonly kind: 'code';
  readonly value: string;
  readonly language?: string;
}

export interface Quote {
  readonly kind: 'quote';
  readonly blocks: readonly Block[];
}

/** A caution that the reader must not miss. */
export interface Notice {
  readonly kind: 'notice';
  readonly tone: Tone;
  readonly blocks: readonly Block[];
}

export interface Rule {
  readonly kind: 'rule';
}

export interface PageBreak {
  readonly kind: 'page-break';
}

/** Blocks set on landscape pages. Only at the outermost level of a document, and never one within another. */
export interface Landscape {
  readonly kind: 'landscape';
  readonly blocks: readonly Block[];
}

export type Block =
  | Heading
  | Paragraph
  | List
  | Table
  | Particulars
  | Figure
  | Code
  | Quote
  | Notice
  | Rule
  | PageBreak
  | Landscape;

/** The file that shows a record. */
export interface ElsewhereShown extends Pick<FileLink, 'path' | 'inHtml'> {
  /** Whether the file as a whole is the record, so that it has no bookmark for it. */
  readonly opensWhole: boolean;
}

/** One signature line on the cover. */
export interface Signature {
  readonly role: string;
  readonly name: string;
  readonly meaning: string;
  /** ISO date. */
  readonly date: string;
  /** `in force`, `lapsed`, `earlier` where the role approved again later, or `unsigned` where it still has to sign. */
  readonly state: string;
}

export interface Document {
  /** Record id of the document, for example DOC-03. */
  readonly id: string;
  readonly title: string;
  readonly subtitle?: string;
  /** The maker's document number; equals the id unless the maker has an own scheme. */
  readonly number: string;
  readonly revision: string;
  readonly status: string;
  /** ISO date that the document's content is stated for. */
  readonly date: string;
  readonly organisation: string;
  readonly product: string;
  /** BCP 47, for example en-GB. */
  readonly language: string;
  readonly signatures: readonly Signature[];
  readonly blocks: readonly Block[];
  readonly footnotes: readonly (readonly Block[])[];
  /** One line at the foot of every page, where the house style has no foot of its own. Empty: none. */
  readonly caution: string;
  /** Where this came from: printed on the last page and kept in the file's properties. */
  readonly provenance: readonly {
    readonly name: string;
    readonly value: string;
  }[];
  /** Whether there is a contents list where the document has headings enough for one. Default: yes. */
  readonly hasContents?: boolean;
  /** Files of the same folder that show records which this document does not, by the id of the record. */
  readonly elsewhere?: ReadonlyMap<string, ElsewhereShown>;
  /** Record ids in the whole technical file: the record's title, for screen tips and print. */
  readonly recordTitles: ReadonlyMap<string, string>;
}

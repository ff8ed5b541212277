import type { Definition, FootnoteDefinition, Nodes } from 'mdast';
import type { Finding, Place } from '../findings/finding.ts';
import type { MarkdownOptions, UnknownRecordId } from './markdown.ts';
import { type MarkdownCode, markdownCodes } from './markdown-findings.ts';
import type { Block } from './model.ts';

/** What one run of the Markdown compiler knows and gathers. Lives for one body only. */
export interface Compilation {
  readonly body: string;
  readonly options: MarkdownOptions;
  readonly recordIds: RegExp;
  readonly definitions: ReadonlyMap<string, Definition>;
  readonly footnoteDefinitions: ReadonlyMap<string, FootnoteDefinition>;
  readonly takenAnchors: Set<string>;
  /** Names that authors gave; they go before those that headings get by their words. */
  readonly givenAnchors: Set<string>;
  /** Headings that got their name by their words. */
  readonly namedByWords: Set<Block>;
  readonly findings: Finding[];
  readonly unknownRecordIds: UnknownRecordId[];
  readonly footnotes: (readonly Block[])[];
  /** The note of each definition that was referred to so far. */
  readonly usedFootnotes: Map<string, number | undefined>;
  /** Links to check once all anchors are known. */
  readonly anchorLinks: { readonly anchor: string; readonly place: Place }[];
  /** What is added to a heading's depth in the body to get its level in the document. */
  readonly levelShift: number;
  /** Level of the heading last met, 0 before the first. */
  enclosingLevel: number;
}

/** Where a block or inline stands. */
export interface Surroundings {
  /** Number of lists, quotes, directives and marks around it. */
  readonly depth: number;
  readonly inFootnote: boolean;
  /** Number of lists around it. */
  readonly lists?: number;
}

/** Lists within lists, down to this level; Word has no more (ISO/IEC 29500-1, 17.9.3: nine levels). */
export const deepestList = 9;

/** Deeper nesting than this is a mistake or an attack; the content is then kept as plain text. */
export const deepestNesting = 60;

/** The node's place in the file. */
export function placeOf(node: Nodes, { options }: Compilation): Place {
  const { position } = node;
  if (position === undefined) return { file: options.file, line: options.firstLine, column: 1 };
  const shift = options.firstLine - 1;
  return {
    file: options.file,
    line: position.start.line + shift,
    column: position.start.column,
    endLine: position.end.line + shift,
    endColumn: position.end.column,
  };
}

/** The characters of the body that the node was made from. */
export function sourceOf(node: Nodes, { body }: Compilation): string {
  const { position } = node;
  return position === undefined ? '' : body.slice(position.start.offset, position.end.offset);
}

interface Report {
  readonly code: MarkdownCode;
  readonly message: string;
  readonly hint: string;
}

/** Adds a finding at the node. */
export function report(compilation: Compilation, node: Nodes, finding: Report): void {
  reportAt(compilation, placeOf(node, compilation), finding);
}

/** Adds a finding at a place within a node. */
export function reportAt(compilation: Compilation, place: Place, finding: Report): void {
  compilation.findings.push({
    ...finding,
    level: markdownCodes[finding.code].level,
    place,
    records: [],
    related: [],
  });
}

/** Adds the finding for something that the document can't show as written. */
export function reportLoss(compilation: Compilation, node: Nodes, message: string, hint: string): void {
  report(compilation, node, {
    code: 'lossy-markdown',
    message,
    hint,
  });
}

/** The name that an author gives to a table or figure; reported and left out where something else has it. */
export function ownAnchor(
  compilation: Compilation,
  node: Nodes,
  anchor: string | undefined,
): string | undefined {
  if (anchor === undefined) return undefined;
  const { givenAnchors, options } = compilation;
  if (givenAnchors.has(anchor) || options.anchorsElsewhere?.includes(anchor)) {
    reportLoss(
      compilation,
      node,
      `the name ${anchor} is given twice, this one is left out`,
      'Choose another name.',
    );
    return undefined;
  }
  givenAnchors.add(anchor);
  compilation.takenAnchors.add(anchor);
  return anchor;
}

/** Reports a name in braces that is no name, or does not stand at the end: it is printed as it was typed. */
export function reportTypedName(compilation: Compilation, node: Nodes, text: string): void {
  const name = /(?<!\\)\{#[^}]{0,100}\}/.exec(text)?.[0];
  if (name !== undefined)
    reportLoss(
      compilation,
      node,
      `${excerpt(name)} gives no name and is printed as it stands`,
      'Write the name at the very end, in letters, digits and hyphens: {#residual-risks}.',
    );
}

/** A text short enough for a message, on one line. */
export function excerpt(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim();
  return line.length > 60 ? `${line.slice(0, 59)}…` : line;
}

/** What remains of raw HTML once comments, which are an author's remarks, are taken out. */
export function withoutComments(html: string): string {
  return html.replace(/<!--(?:>|->|[\s\S]*?(?:-->|$))/g, '').trim();
}

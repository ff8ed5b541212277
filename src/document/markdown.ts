import type { Definition, FootnoteDefinition, Nodes, Root } from 'mdast';
import type {} from 'remark-directive';
import type { Finding, Place } from '../findings/finding.ts';
import { headingAnchor } from './anchors.ts';
import { replaceUnprintable } from './clean-text.ts';
import { type Compilation, reportLoss } from './compilation.ts';
import { compileBlocks } from './compile-blocks.ts';
import { inlineText } from './document-text.ts';
import { markdownCodes } from './markdown-findings.ts';
import type { Block, Figure, Inline } from './model.ts';
import { findTargets } from './numbering.ts';

/** A picture as a figure shows it. */
export type ShownPicture = Pick<Figure, 'svg' | 'png' | 'widthPx' | 'heightPx' | 'source'>;

/** What the compiler must know of the technical file, as functions, so that it needs no other layer. */
export interface MarkdownOptions {
  /** Path that findings name. */
  readonly file: string;
  /** Line of the file on which the body's first line stands, counted from 1. */
  readonly firstLine: number;
  /** The level that the body's highest heading gets; the others keep their distance. Default 1. */
  readonly topHeadingLevel?: number;
  /** Index of the first footnote, where this body joins others in one document. Default 0. */
  readonly firstFootnote?: number;
  /** Anchors that other bodies of the same document already hold: not given again, and allowed as link targets. */
  readonly anchorsElsewhere?: readonly string[];
  /**
   * Draws a fenced block with the info string `plinth NAME`. The place is the fence's opening line; the YAML text
   * starts one line below it. `enclosingLevel` is the level of the heading above, 0 where there is none.
   */
  readonly expandView: (
    name: string,
    yamlText: string,
    place: Place,
    enclosingLevel: number,
  ) => readonly Block[];
  /** What to write instead of a name that `inlineValue` does not know. */
  readonly inlineHint?: (name: string) => string;
  /** The value of an inline directive, or `undefined` where the name is no value's name: it is then plain text. */
  readonly inlineValue: (
    name: string,
    label: string,
    attributes: Readonly<Record<string, string>>,
    place: Place,
  ) => readonly Inline[] | undefined;
  /**
   * Whether what stands in `:::when{...}` is shown; with `:::unless` it is shown where this is false. Without it, or where
   * the condition means nothing (`undefined`, reported by the callee), the text stays.
   */
  readonly condition?: (attributes: Readonly<Record<string, string>>, place: Place) => boolean | undefined;
  /** What the remarks in raw HTML ask a person to write; each is shown as a notice. Without it no remark is shown. */
  readonly toBeWritten?: (html: string) => readonly string[];
  /**
   * The picture that `![...](path)` names, by its path as written. Without it pictures are left out; `undefined` where
   * there is none that can be shown, reported by the callee.
   */
  readonly picture?: (path: string, place: Place) => ShownPicture | undefined;
  /** Whether a record has this id. */
  readonly isRecordId: (text: string) => boolean;
  /** Finds what looks like a record id; flags are taken over, `g` is added. */
  readonly recordIdPattern: RegExp;
}

/** A word in prose that looks like a record id but names no record. */
export interface UnknownRecordId {
  readonly id: string;
  readonly place: Place;
}

export interface CompiledMarkdown {
  readonly blocks: readonly Block[];
  readonly footnotes: readonly (readonly Block[])[];
  readonly findings: readonly Finding[];
  /** For the caller to report or to let pass. */
  readonly unknownRecordIds: readonly UnknownRecordId[];
}

/** Turns the Markdown body of a record into blocks of the document model. Never throws for what the body holds. */
export type MarkdownCompiler = (body: string, options: MarkdownOptions) => CompiledMarkdown;

/**
 * Loads the Markdown parser and gives the compiler: CommonMark, GitHub's tables, task lists, footnotes and strikes,
 * and the generic directive syntax. What can't be shown as written is reported, never dropped in silence; only
 * HTML comments, which are an author's remarks, go without a word.
 */
export async function createMarkdownCompiler(): Promise<MarkdownCompiler> {
  const [{ unified }, { default: remarkParse }, { default: remarkGfm }, { default: remarkDirective }] =
    await Promise.all([
      import('unified'),
      import('remark-parse'),
      import('remark-gfm'),
      import('remark-directive'),
    ]);
  const parser = unified().use(remarkParse).use(remarkGfm).use(remarkDirective).freeze();
  // The body of a record stands in several documents, and most bodies are as they were when a file is built again.
  const parsed = new Map<string, Root>();
  const parse = (text: string): Root => {
    const root = parsed.get(text) ?? parser.parse(text);
    if (parsed.size >= rememberedBodies) parsed.clear();
    parsed.set(text, root);
    return root;
  };
  return (body, options) => compileMarkdown(body, options, parse);
}

/** Syntax trees kept for the next compilation of the same text; they are read, never changed. */
const rememberedBodies = 5_000;

function compileMarkdown(
  body: string,
  options: MarkdownOptions,
  parse: (body: string) => Root,
): CompiledMarkdown {
  const clean = replaceUnprintable(body).text;
  const findings = unprintableFindings(body, clean, options);
  let root: Root;
  try {
    root = parse(clean);
  } catch (error) {
    // The parser recurses with the nesting of the text; thousands of levels exhaust the stack.
    const place = { file: options.file, line: options.firstLine, column: 1 };
    const message = `the body can't be read: ${error instanceof Error ? error.message : String(error)}`;
    const hint = 'Reduce the nesting of quotes and lists.';
    findings.push({
      code: 'unreadable-markdown',
      level: markdownCodes['unreadable-markdown'].level,
      place,
      message,
      hint,
      records: [],
      related: [],
    });
    return { blocks: [], footnotes: [], findings, unknownRecordIds: [] };
  }
  const compilation = begin(root, clean, options, findings);
  const drawn = compileBlocks(root.children, compilation, { depth: 0, inFootnote: false });
  const blocks = drawn.map((block) => withFreeName(block, compilation));
  reportUnusedFootnotes(compilation);
  reportUnknownAnchors(blocks, compilation);
  const { footnotes, unknownRecordIds } = compilation;
  return {
    blocks,
    footnotes,
    findings: [...findings].sort(byPlace),
    unknownRecordIds,
  };
}

/** A heading makes room for what an author named by its words: a table "matrix" below the heading "Matrix". */
function withFreeName(block: Block, compilation: Compilation): Block {
  if (block.kind === 'landscape')
    return { ...block, blocks: block.blocks.map((each) => withFreeName(each, compilation)) };
  if (block.kind !== 'heading' || block.anchor === undefined) return block;
  const { givenAnchors, namedByWords, takenAnchors } = compilation;
  return namedByWords.has(block) && givenAnchors.has(block.anchor)
    ? { ...block, anchor: headingAnchor(inlineText(block.children), takenAnchors) }
    : block;
}

function begin(root: Root, body: string, options: MarkdownOptions, findings: Finding[]): Compilation {
  const definitions = new Map<string, Definition>();
  const footnoteDefinitions = new Map<string, FootnoteDefinition>();
  const again: { readonly node: Nodes; readonly what: string }[] = [];
  const gather = (nodes: readonly Nodes[], depth: number): void => {
    for (const node of nodes) {
      // The first definition of a name holds (CommonMark 0.31.2, section 4.7).
      if (node.type === 'definition') {
        const first = definitions.get(node.identifier);
        if (first === undefined) definitions.set(node.identifier, node);
        else if (first.url !== node.url) again.push({ node, what: `the target [${node.identifier}]` });
      }
      if (node.type === 'footnoteDefinition') {
        if (footnoteDefinitions.has(node.identifier))
          again.push({ node, what: `the footnote ${node.identifier}` });
        else footnoteDefinitions.set(node.identifier, node);
      }
      if ('children' in node && depth < 1000) gather(node.children, depth + 1);
    }
  };
  gather(root.children, 0);
  const depths = root.children.flatMap((node) => (node.type === 'heading' ? [node.depth] : []));
  const pattern = options.recordIdPattern;
  const compilation: Compilation = {
    body,
    options,
    recordIds: new RegExp(pattern.source, pattern.flags.includes('g') ? pattern.flags : `${pattern.flags}g`),
    definitions,
    footnoteDefinitions,
    takenAnchors: new Set(options.anchorsElsewhere),
    givenAnchors: new Set(),
    namedByWords: new Set(),
    findings,
    unknownRecordIds: [],
    footnotes: [],
    usedFootnotes: new Map(),
    anchorLinks: [],
    levelShift: (options.topHeadingLevel ?? 1) - Math.min(...depths, 6),
    enclosingLevel: 0,
  };
  for (const { node, what } of again)
    reportLoss(compilation, node, `${what} is written twice, this one is left out`, 'Give it another name.');
  return compilation;
}

function unprintableFindings(body: string, clean: string, options: MarkdownOptions): Finding[] {
  if (body === clean) return [];
  const cleanLines = clean.split(/\r\n|\n|\r/);
  return body.split(/\r\n|\n|\r/).flatMap((line, index) => {
    const cleanLine = cleanLines[index] ?? '';
    const column = [...Array(line.length).keys()].find((at) => line[at] !== cleanLine[at]);
    if (column === undefined) return [];
    const code = line.charCodeAt(column).toString(16).toUpperCase().padStart(4, '0');
    return [
      {
        code: 'control-character',
        level: markdownCodes['control-character'].level,
        place: {
          file: options.file,
          line: options.firstLine + index,
          column: column + 1,
        },
        message: code.startsWith('20')
          ? `the character U+${code} turns the text around it and is replaced by U+FFFD`
          : `the character U+${code} can't be shown and is replaced by U+FFFD`,
        hint: 'Delete the character.',
        records: [],
        related: [],
      },
    ];
  });
}

function reportUnusedFootnotes(compilation: Compilation): void {
  for (const [identifier, node] of compilation.footnoteDefinitions) {
    if (compilation.usedFootnotes.has(identifier)) continue;
    const start = node.position?.start;
    const { options } = compilation;
    compilation.findings.push({
      code: 'lossy-markdown',
      level: markdownCodes['lossy-markdown'].level,
      place: {
        file: options.file,
        line: (start?.line ?? 1) + options.firstLine - 1,
        column: start?.column ?? 1,
      },
      message: `the footnote ${identifier} is nowhere referred to and is left out`,
      hint: `Refer to it as [^${identifier}] or delete it.`,
      records: [],
      related: [],
    });
  }
}

function reportUnknownAnchors(blocks: readonly Block[], compilation: Compilation): void {
  const known = findTargets({ blocks }).anchors;
  const elsewhere = new Set(compilation.options.anchorsElsewhere);
  for (const { anchor, place } of compilation.anchorLinks) {
    if (known.has(anchor) || elsewhere.has(anchor)) continue;
    compilation.findings.push({
      code: 'unknown-anchor',
      level: markdownCodes['unknown-anchor'].level,
      place,
      message: `no heading, table or figure of the document has the anchor ${anchor}`,
      hint: 'Name the anchor of a heading (its words in lower case, joined by hyphens), table or figure.',
      records: [],
      related: [],
    });
  }
}

function byPlace(a: Finding, b: Finding): number {
  return a.place.line - b.place.line || a.place.column - b.place.column;
}

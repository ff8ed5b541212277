import type {
  FootnoteReference,
  Image,
  ImageReference,
  Link,
  LinkReference,
  Nodes,
  PhrasingContent,
} from 'mdast';
import {
  type Compilation,
  deepestNesting,
  excerpt,
  placeOf,
  report,
  reportAt,
  reportLoss,
  type Surroundings,
  sourceOf,
  withoutComments,
} from './compilation.ts';
import { compileBlocks } from './compile-blocks.ts';
import { joinTexts } from './join-texts.ts';
import { isSafeTarget } from './link-target.ts';
import type { Inline, Text } from './model.ts';

type TextDirective = Extract<Nodes, { type: 'textDirective' }>;

/** The marks that the text at hand has from the nodes around it. */
export type Marks = Omit<Text, 'kind' | 'value'>;

interface InlineSurroundings extends Surroundings {
  readonly marks: Marks;
  /** Within a link neither records nor other links are linked. */
  readonly inLink: boolean;
}

/** Compiles running text. */
export function compileInlines(
  nodes: readonly PhrasingContent[],
  compilation: Compilation,
  around: Surroundings,
  marks: Marks = {},
): readonly Inline[] {
  return inlines(nodes, compilation, { ...around, marks, inLink: false });
}

function inlines(
  nodes: readonly PhrasingContent[],
  compilation: Compilation,
  around: InlineSurroundings,
): readonly Inline[] {
  return joinTexts(nodes.flatMap((node) => inline(node, compilation, around)));
}

function inline(
  node: PhrasingContent,
  compilation: Compilation,
  around: InlineSurroundings,
): readonly Inline[] {
  const { marks } = around;
  if (around.depth > deepestNesting) {
    reportLoss(compilation, node, 'the nesting is too deep and is kept as plain text', 'Reduce the nesting.');
    return plain(sourceOf(node, compilation), marks);
  }
  const within = (more: Marks): InlineSurroundings => ({
    ...around,
    depth: around.depth + 1,
    marks: { ...marks, ...more },
  });
  switch (node.type) {
    case 'text':
      reportTypedMarks(node, compilation);
      return textWithRecords(node, node.value, compilation, around);
    case 'strong':
      return inlines(node.children, compilation, within({ bold: true }));
    case 'emphasis':
      return inlines(node.children, compilation, within({ italic: true }));
    case 'delete':
      return inlines(node.children, compilation, within({ strike: true }));
    case 'inlineCode':
      return plain(node.value, { ...marks, code: true });
    case 'break':
      return [{ kind: 'line-break' }];
    case 'html':
      refuseHtml(node, node.value, compilation);
      return (compilation.options.toBeWritten?.(node.value) ?? []).map((wanted) => ({
        kind: 'text',
        value: `To be written: ${wanted}`,
        bold: true,
        tone: 'caution',
      }));
    case 'link':
    case 'linkReference':
      return link(node, compilation, within({}));
    case 'image':
    case 'imageReference':
      return image(node, compilation, marks);
    case 'footnoteReference':
      return footnoteReference(node, compilation, around);
    case 'textDirective':
      return directive(node, compilation, around);
  }
}

/** Reports raw HTML, unless it is only comments. */
export function refuseHtml(node: Nodes, html: string, compilation: Compilation): void {
  const rest = withoutComments(html);
  if (rest === '') return;
  const message = `raw HTML is not taken over: ${excerpt(rest)}`;
  report(compilation, node, {
    code: 'raw-html',
    message,
    hint: 'Write it in Markdown.',
  });
}

function plain(value: string, marks: Marks): readonly Inline[] {
  return value === '' ? [] : [{ kind: 'text', value: value.replace(/\r\n|\n|\r/g, ' '), ...marks }];
}

/** A footnote's mark that became text, unless its bracket was escaped. */
const footnoteMark = /(?<!\\)\[\^([^\]\s[]{1,100})\]/g;

/** A line of colons that became text. */
const colonLine = /^[ \t]{0,3}:{3,}[ \t]*$/gm;

/** Reports what the author meant as a mark, and what would be printed as it was typed. */
function reportTypedMarks(node: Nodes, compilation: Compilation): void {
  const source = sourceOf(node, compilation);
  if (!/\[\^|:::/.test(source)) return;
  for (const match of source.matchAll(footnoteMark))
    reportAt(compilation, placeWithin(node, source, match.index, compilation), {
      code: 'footnote-missing',
      message: `there is no footnote ${excerpt(match[1] ?? '')}`,
      hint: `Write it on a line of its own, as "[^${match[1]}]: …", or put a backslash before the bracket.`,
    });
  for (const match of source.matchAll(colonLine))
    reportAt(compilation, placeWithin(node, source, match.index, compilation), {
      code: 'directive-unbalanced',
      message: 'this line of colons closes no block',
      hint: 'Delete it, or give the outer block more colons than the ones within it.',
    });
}

function textWithRecords(
  node: Nodes,
  value: string,
  compilation: Compilation,
  around: InlineSurroundings,
): readonly Inline[] {
  if (around.inLink) return plain(value, around.marks);
  const result: Inline[] = [];
  let done = 0;
  for (const match of value.matchAll(compilation.recordIds)) {
    const id = match[0];
    if (id === '') continue;
    if (!compilation.options.isRecordId(id)) {
      compilation.unknownRecordIds.push({
        id,
        place: placeWithin(node, value, match.index, compilation),
      });
      continue;
    }
    result.push(...plain(value.slice(done, match.index), around.marks), {
      kind: 'record-reference',
      id,
    });
    done = match.index + id.length;
  }
  result.push(...plain(value.slice(done), around.marks));
  return result;
}

/** Exact where the text stands in the source as it is, else the start of the text on the right line. */
function placeWithin(node: Nodes, value: string, index: number, compilation: Compilation) {
  const place = placeOf(node, compilation);
  const before = value.slice(0, index).split('\n');
  const line = place.line + before.length - 1;
  const exact = sourceOf(node, compilation) === value;
  const lastLine = before.at(-1) ?? '';
  const column = exact ? lastLine.length + (before.length === 1 ? place.column : 1) : place.column;
  return { file: place.file, line, column };
}

function link(
  node: Link | LinkReference,
  compilation: Compilation,
  around: InlineSurroundings,
): readonly Inline[] {
  const target = node.type === 'link' ? node : compilation.definitions.get(node.identifier);
  const children = inlines(node.children, compilation, {
    ...around,
    inLink: true,
  });
  if (target === undefined) return plain(sourceOf(node, compilation), around.marks);
  if (target.title) {
    reportLoss(
      compilation,
      node,
      `the link's title is left out: ${excerpt(target.title)}`,
      'Put it in the text.',
    );
  }
  const { url } = target;
  if (url.startsWith('#')) {
    const anchor = decoded(url.slice(1));
    compilation.anchorLinks.push({ anchor, place: placeOf(node, compilation) });
    return [
      {
        kind: 'cross-reference',
        anchor,
        ...(children.length > 0 && { children }),
      },
    ];
  }
  if (isSafeTarget(url)) {
    return [
      {
        kind: 'external-link',
        target: url,
        children: children.length > 0 ? children : plain(url, around.marks),
      },
    ];
  }
  // biome-ignore lint/suspicious/noControlCharactersInRegex: browsers skip control characters before a scheme
  if (/^[\u0000-\u0020]*[a-z][a-z0-9+.\-\s]*:|^[\\/]{2}/i.test(url)) {
    report(compilation, node, {
      code: 'unsafe-link',
      message: `the link's target is not http, https or mailto: ${excerpt(url)}`,
      hint: 'Link to a web address, a mail address or an anchor in the document.',
    });
  } else {
    const hint = 'Name the record by its id, or link to an anchor or a web address.';
    reportLoss(compilation, node, `the link to the file ${excerpt(url)} is left out, its text is kept`, hint);
  }
  return children;
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

function image(node: Image | ImageReference, compilation: Compilation, marks: Marks): readonly Inline[] {
  if (!node.alt) {
    report(compilation, node, {
      code: 'image-without-alternative',
      message: 'the image has no alternative text and is left out',
      hint: 'Say between the square brackets what the image shows.',
    });
    return [];
  }
  const hint = 'Put the image into a paragraph of its own; it becomes a figure with a caption.';
  reportLoss(
    compilation,
    node,
    `the image is left out, its alternative text is kept: ${excerpt(node.alt)}`,
    hint,
  );
  return plain(`[${node.alt}]`, marks);
}

function footnoteReference(
  node: FootnoteReference,
  compilation: Compilation,
  around: InlineSurroundings,
): readonly Inline[] {
  const definition = compilation.footnoteDefinitions.get(node.identifier);
  if (definition === undefined) return plain(sourceOf(node, compilation), around.marks);
  const known = compilation.usedFootnotes.get(node.identifier);
  compilation.usedFootnotes.set(node.identifier, known);
  if (around.inFootnote || around.inLink) {
    const where = around.inFootnote ? 'a footnote' : 'a link';
    reportLoss(
      compilation,
      node,
      `a footnote within ${where} is left out`,
      'Put its text in place of the reference.',
    );
    return [];
  }
  if (known !== undefined) return [{ kind: 'footnote-reference', index: known }];
  const blocks = compileBlocks(definition.children, compilation, {
    depth: 1,
    inFootnote: true,
  });
  compilation.footnotes.push(blocks);
  const index = (compilation.options.firstFootnote ?? 0) + compilation.footnotes.length - 1;
  compilation.usedFootnotes.set(node.identifier, index);
  return [{ kind: 'footnote-reference', index }];
}

function directive(
  node: TextDirective,
  compilation: Compilation,
  around: InlineSurroundings,
): readonly Inline[] {
  const { options } = compilation;
  const attributes = Object.fromEntries(
    Object.entries(node.attributes ?? {}).map(([name, value]) => [name, value ?? '']),
  );
  const value = options.inlineValue(
    node.name,
    labelOf(node, compilation),
    attributes,
    placeOf(node, compilation),
  );
  if (value !== undefined) return value;
  if (node.children.length > 0)
    report(compilation, node, {
      code: 'unknown-directive',
      message: `there is no inline value :${node.name}`,
      hint: `${options.inlineHint?.(node.name) ?? ''} For the text itself, put a backslash before the colon.`.trim(),
    });
  // A colon in ordinary prose, as in "10:30" or "ratio a:b": what was read as a directive goes back to text.
  const first = node.children[0]?.position?.start.offset;
  const last = node.children.at(-1)?.position?.end.offset;
  const start = node.position?.start.offset;
  const end = node.position?.end.offset;
  if (first === undefined || last === undefined || start === undefined || end === undefined) {
    return textWithRecords(node, sourceOf(node, compilation), compilation, around);
  }
  return [
    ...plain(compilation.body.slice(start, first), around.marks),
    ...inlines(node.children, compilation, {
      ...around,
      depth: around.depth + 1,
    }),
    ...plain(compilation.body.slice(last, end), around.marks),
  ];
}

/** The label as the author typed it: in `:value[VR-009A/lower_bound]` nothing is emphasis. */
function labelOf(node: TextDirective, { body }: Compilation): string {
  const first = node.children[0]?.position?.start.offset;
  const last = node.children.at(-1)?.position?.end.offset;
  return first === undefined || last === undefined ? '' : body.slice(first, last);
}

import type { BlockContent, Code, DefinitionContent, Heading, Nodes, RootContent } from 'mdast';
import { toString as textOf } from 'mdast-util-to-string';
import { headingAnchor } from './anchors.ts';
import {
  type Compilation,
  deepestList,
  deepestNesting,
  excerpt,
  ownAnchor,
  placeOf,
  report,
  reportLoss,
  reportTypedName,
  type Surroundings,
  sourceOf,
} from './compilation.ts';
import { imageFigure, soleImage } from './compile-image.ts';
import { compileInlines, refuseHtml } from './compile-inlines.ts';
import { compileTable, tableCaption } from './compile-table.ts';
import { inlineText } from './document-text.ts';
import type { Block, Heading as HeadingBlock, List, Notice } from './model.ts';
import { findTargets } from './numbering.ts';

type ContainerDirective = Extract<Nodes, { type: 'containerDirective' }>;
type LeafDirective = Extract<Nodes, { type: 'leafDirective' }>;
type BlockNode = RootContent | BlockContent | DefinitionContent;

/** Compiles blocks in reading order. */
export function compileBlocks(
  nodes: readonly BlockNode[],
  compilation: Compilation,
  around: Surroundings,
): readonly Block[] {
  return nodes.flatMap((node, index) => {
    const before = nodes[index - 1];
    const after = nodes[index + 1];
    if (node.type === 'table') return [compileTable(node, tableCaption(before), compilation, around)];
    // The caption is drawn with its table.
    if (after?.type === 'table' && node.type === 'paragraph' && tableCaption(node) !== undefined) {
      if (node.children.some((child) => child.type !== 'text')) {
        reportLoss(
          compilation,
          node,
          'the caption is kept as plain text',
          'Write the caption without marks.',
        );
      }
      return [];
    }
    return block(node, compilation, around);
  });
}

function block(node: BlockNode, compilation: Compilation, around: Surroundings): readonly Block[] {
  if (around.depth > deepestNesting) {
    reportLoss(compilation, node, 'the nesting is too deep and is kept as plain text', 'Reduce the nesting.');
    return [{ kind: 'code', value: sourceOf(node, compilation) }];
  }
  const deeper: Surroundings = { ...around, depth: around.depth + 1 };
  switch (node.type) {
    case 'heading':
      return heading(node, compilation, around);
    case 'paragraph': {
      if (tableCaption(node)?.anchor !== undefined)
        reportLoss(
          compilation,
          node,
          'this caption stands above no table and is printed as it stands',
          'Put it right above its table, with one empty line between them.',
        );
      const picture = soleImage(node, compilation);
      if (picture) return imageFigure(picture, compilation);
      const children = compileInlines(node.children, compilation, around);
      return children.length === 0 ? [] : [{ kind: 'paragraph', children }];
    }
    case 'list': {
      const lists = (around.lists ?? 0) + 1;
      if (lists === deepestList + 1)
        reportLoss(
          compilation,
          node,
          `a list within ${deepestList} others is shown at the level of the last of them`,
          'Reduce the nesting.',
        );
      return [
        {
          kind: 'list',
          ordered: node.ordered === true,
          ...(node.ordered === true &&
            typeof node.start === 'number' &&
            node.start !== 1 && { start: node.start }),
          items: node.children.map((item) => ({
            ...(typeof item.checked === 'boolean' && { checked: item.checked }),
            blocks: compileBlocks(item.children, compilation, { ...deeper, lists }),
          })),
        } satisfies List,
      ];
    }
    case 'blockquote':
      return [
        {
          kind: 'quote',
          blocks: compileBlocks(node.children, compilation, deeper),
        },
      ];
    case 'code':
      return code(node, compilation, around);
    case 'thematicBreak':
      return [{ kind: 'rule' }];
    case 'html':
      refuseHtml(node, node.value, compilation);
      return (compilation.options.toBeWritten?.(node.value) ?? []).map((wanted) => toBeWritten(wanted));
    case 'containerDirective':
      return containerDirective(node, compilation, around);
    case 'leafDirective':
      return leafDirective(node, compilation, around);
    case 'definition':
    case 'footnoteDefinition':
      // Gathered beforehand, drawn where they are referred to.
      return [];
    default:
      reportLoss(compilation, node, `${node.type} is kept as plain text`, 'Write it in another way.');
      return [{ kind: 'code', value: sourceOf(node, compilation) }];
  }
}

function heading(node: Heading, compilation: Compilation, around: Surroundings): readonly Block[] {
  if (around.depth > 0) {
    const hint = 'Move the heading out of the list or quote.';
    reportLoss(compilation, node, 'a heading within a list or quote is kept as a bold line', hint);
    return [
      {
        kind: 'paragraph',
        children: compileInlines(node.children, compilation, around, {
          bold: true,
        }),
      },
    ];
  }
  const level = Math.max(1, Math.min(6, node.depth + compilation.levelShift));
  if (level > compilation.enclosingLevel + 1 && compilation.enclosingLevel > 0) {
    report(compilation, node, {
      code: 'heading-level-jump',
      message: `the heading "${textOf(node)}" skips a level below the heading before it`,
      hint: 'Use the next level.',
    });
  }
  compilation.enclosingLevel = level;
  const { words, anchor: given } = withoutAnchor(node);
  if (textOf(words).trim() === '') {
    reportLoss(
      compilation,
      node,
      'a heading without words is left out',
      'Write its words, or delete the marks.',
    );
    return [];
  }
  if (given === undefined) reportTypedName(compilation, node, sourceOf(node, compilation));
  const children = compileInlines(words, compilation, around);
  const own = ownAnchor(compilation, node, given);
  const compiled: HeadingBlock = {
    kind: 'heading',
    level: level as HeadingBlock['level'],
    children,
    anchor: own ?? headingAnchor(inlineText(children), compilation.takenAnchors),
  };
  if (own === undefined) compilation.namedByWords.add(compiled);
  return [compiled];
}

/** The words of a heading, and the anchor that its author gave at their end: `Residual risks {#residual}`. */
function withoutAnchor(node: Heading): {
  readonly words: Heading['children'];
  readonly anchor?: string;
} {
  const last = node.children.at(-1);
  const [, rest = '', anchor] =
    (last?.type === 'text' ? /^(.*?)[ \t]*\{#([\p{L}\p{N}-]{1,100})\}$/su.exec(last.value) : undefined) ?? [];
  if (last?.type !== 'text' || anchor === undefined) return { words: node.children };
  return {
    words: [...node.children.slice(0, -1), ...(rest === '' ? [] : [{ ...last, value: rest }])],
    anchor,
  };
}

function code(node: Code, compilation: Compilation, around: Surroundings): readonly Block[] {
  if (node.lang !== 'plinth') {
    return [
      {
        kind: 'code',
        value: node.value,
        ...(node.lang && { language: node.lang }),
      },
    ];
  }
  const name = node.meta?.trim() ?? '';
  const place = placeOf(node, compilation);
  const drawn = compilation.options.expandView(name, node.value, place, compilation.enclosingLevel);
  for (const anchor of findTargets({ blocks: drawn }).anchors.keys()) ownAnchor(compilation, node, anchor);
  return around.depth === 0
    ? drawn
    : drawn.flatMap((each) => (each.kind === 'landscape' ? each.blocks : [each]));
}

/** Nobody shall hand in a section that only looks empty because its author's remark is not drawn. */
const toBeWritten = (wanted: string): Notice => ({
  kind: 'notice',
  tone: 'caution',
  blocks: [{ kind: 'paragraph', children: [{ kind: 'text', value: `To be written: ${wanted}` }] }],
});

/** Reports a title in brackets, or settings in braces, of a block that takes none. */
function refuseSettings(node: ContainerDirective | LeafDirective, compilation: Compilation): void {
  const marks = node.type === 'leafDirective' ? '::' : ':::';
  const names = Object.keys(node.attributes ?? {});
  const label = node.type === 'leafDirective' ? textOf(node.children) : '';
  if (names.length === 0 && label === '') return;
  reportLoss(
    compilation,
    node,
    label === ''
      ? `${marks}${node.name} has no setting ${excerpt(names.join(', '))}, it is left out`
      : `the words in the brackets of ${marks}${node.name} are left out: ${excerpt(label)}`,
    'Write words as a paragraph of their own.',
  );
}

const noticeTones: Readonly<Record<string, Notice['tone']>> = {
  caution: 'caution',
  note: 'quiet',
};

function containerDirective(
  node: ContainerDirective,
  compilation: Compilation,
  around: Surroundings,
): readonly Block[] {
  if (!/(?:^|[\r\n])[ \t>]*:{3,}[ \t]*$/.test(sourceOf(node, compilation)))
    report(compilation, node, {
      code: 'directive-unbalanced',
      message: `the block :::${node.name} is not closed and runs to the end of the text around it`,
      hint: 'End it by a line of colons, as many as it begins with.',
    });
  if ((node.name === 'when' || node.name === 'unless') && compilation.options.condition) {
    const attributes = Object.fromEntries(
      Object.entries(node.attributes ?? {}).map(([name, value]) => [name, value ?? '']),
    );
    const holds = compilation.options.condition(attributes, placeOf(node, compilation));
    // Headings in it belong to the outline, so the depth stays.
    return holds === undefined || holds === (node.name === 'when')
      ? compileBlocks(node.children, compilation, around)
      : [];
  }
  if (node.name === 'landscape' || Object.hasOwn(noticeTones, node.name)) refuseSettings(node, compilation);
  if (node.name === 'landscape' && around.depth === 0) {
    // Headings on landscape pages belong to the outline, so the depth stays.
    return [
      {
        kind: 'landscape',
        blocks: withoutLandscape(compileBlocks(node.children, compilation, around)),
      },
    ];
  }
  const blocks = compileBlocks(node.children, compilation, {
    ...around,
    depth: around.depth + 1,
  });
  const tone = Object.hasOwn(noticeTones, node.name) ? noticeTones[node.name] : undefined;
  if (tone !== undefined) return [{ kind: 'notice', tone, blocks }];
  if (node.name === 'landscape') {
    reportLoss(
      compilation,
      node,
      'landscape within a list, quote or notice has no effect',
      'Move it outwards.',
    );
  } else {
    unknownDirective(node, `:::${node.name}`, compilation);
  }
  return blocks;
}

function withoutLandscape(blocks: readonly Block[]): readonly Block[] {
  return blocks.flatMap((each) => (each.kind === 'landscape' ? each.blocks : [each]));
}

function leafDirective(
  node: LeafDirective,
  compilation: Compilation,
  around: Surroundings,
): readonly Block[] {
  if (node.name === 'page-break') refuseSettings(node, compilation);
  if (node.name === 'page-break' && around.depth === 0) return [{ kind: 'page-break' }];
  if (node.name === 'page-break') {
    reportLoss(compilation, node, 'a page break within a list or quote has no effect', 'Move it outwards.');
    return [];
  }
  unknownDirective(node, `::${node.name}`, compilation);
  return [
    {
      kind: 'paragraph',
      children: [{ kind: 'text', value: sourceOf(node, compilation) }],
    },
  ];
}

function unknownDirective(node: Nodes, name: string, compilation: Compilation): void {
  report(compilation, node, {
    code: 'unknown-directive',
    message: `there is no directive ${name}`,
    hint: 'Use :::landscape, :::caution, :::note, :::when, :::unless or ::page-break, or put a backslash before the colons.',
  });
}

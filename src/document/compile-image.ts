import type { Nodes, Paragraph } from 'mdast';
import {
  type Compilation,
  excerpt,
  ownAnchor,
  placeOf,
  report,
  reportLoss,
  reportTypedName,
} from './compilation.ts';
import type { Block } from './model.ts';

/** An image as it is written: its text in brackets, its path, and the caption after it in quotation marks. */
export interface WrittenImage {
  readonly node: Nodes;
  readonly alternative: string;
  readonly path: string;
  readonly title: string | undefined;
}

/** The image that a paragraph consists of; undefined where it holds anything else. */
export function soleImage(node: Paragraph, compilation: Compilation): WrittenImage | undefined {
  const [only, ...more] = node.children;
  if (more.length > 0 || !compilation.options.picture) return undefined;
  if (only?.type === 'image')
    return { node: only, alternative: only.alt ?? '', path: only.url, title: only.title ?? undefined };
  if (only?.type !== 'imageReference') return undefined;
  const definition = compilation.definitions.get(only.identifier);
  return (
    definition && {
      node: only,
      alternative: only.alt ?? '',
      path: definition.url,
      title: definition.title ?? undefined,
    }
  );
}

/** A figure of an image that stands in a paragraph of its own: `![What it shows](path.svg "Caption {#anchor}")`. */
export function imageFigure(image: WrittenImage, compilation: Compilation): readonly Block[] {
  const { node, alternative, path, title } = image;
  if (alternative.trim() === '') {
    report(compilation, node, {
      code: 'image-without-alternative',
      message: `the image ${excerpt(path)} has no alternative text and is left out`,
      hint: 'Say between the square brackets what the image shows.',
    });
    return [];
  }
  const picture = compilation.options.picture?.(path, placeOf(node, compilation));
  if (!picture) return [{ kind: 'paragraph', children: [{ kind: 'text', value: `[${alternative}]` }] }];
  const [, words, anchor] = /^(.+?)(?:\s*\{#([\p{L}\p{N}-]+)\})?$/su.exec(title?.trim() ?? '') ?? [];
  reportTypedName(compilation, node, words ?? '');
  if (/(?<![\w:]):[a-z]{2,20}\[/.test(words ?? ''))
    reportLoss(
      compilation,
      node,
      `values are not filled in within a caption: ${excerpt(words ?? '')}`,
      'Write the words themselves.',
    );
  const name = ownAnchor(compilation, node, anchor);
  return [
    {
      kind: 'figure',
      caption: (words ?? alternative).replace(/\s+/g, ' '),
      ...(name !== undefined && { anchor: name }),
      alternative,
      ...picture,
    },
  ];
}

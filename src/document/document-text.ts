import type { Block, Document, Inline } from './model.ts';
import { createCounters, findTargets, isDrawn, type Targets } from './numbering.ts';

/**
 * The plain text of a document's body, one line for each paragraph, list item, caption, cell or code line, its
 * footnotes last. Heading numbers are left out, since writers draw them. For search and for comparing formats.
 */
export function documentText(document: Pick<Document, 'blocks' | 'footnotes'>): string {
  const targets = findTargets(document);
  const counters = createCounters();
  const lines: string[] = [];
  const add = (children: readonly Inline[]) => lines.push(...inlineText(children, targets).split('\n'));
  const addBlocks = (blocks: readonly Block[]): void => {
    for (const block of blocks) {
      switch (block.kind) {
        case 'heading':
        case 'paragraph':
          add(block.children);
          break;
        case 'list':
          for (const item of block.items) addBlocks(item.blocks);
          break;
        case 'table':
          if (!isDrawn(block)) break;
          if (block.caption !== undefined) lines.push(`Table ${counters.table()}: ${block.caption}`);
          for (const column of block.columns) lines.push(column.title);
          for (const row of block.rows) for (const cell of row.cells) add(cell.children);
          break;
        case 'particulars':
          for (const entry of block.entries) {
            lines.push(entry.name);
            add(entry.value);
          }
          break;
        case 'figure':
          lines.push(`Figure ${counters.figure()}: ${block.caption}`);
          break;
        case 'code':
          lines.push(...block.value.split('\n'));
          break;
        case 'quote':
        case 'notice':
        case 'landscape':
          addBlocks(block.blocks);
          break;
        case 'rule':
        case 'page-break':
          break;
      }
    }
  };
  addBlocks(document.blocks);
  for (const footnote of document.footnotes) addBlocks(footnote);
  return lines.join('\n');
}

const nothingToLinkTo: Targets = { anchors: new Map(), recordIds: new Set(), headedRecordIds: new Set() };

/**
 * The plain text of a run of inlines; line breaks become line feeds, footnote references nothing.
 *
 * @param targets gives cross-references their labels; without it an unlabelled one shows its anchor
 */
export function inlineText(children: readonly Inline[], targets: Targets = nothingToLinkTo): string {
  return children.map((child) => textOfOne(child, targets)).join('');
}

function textOfOne(child: Inline, targets: Targets): string {
  switch (child.kind) {
    case 'text':
      return child.value;
    case 'external-link':
    case 'file-link':
      return inlineText(child.children, targets);
    case 'record-reference':
      return child.id;
    case 'cross-reference':
      return child.children === undefined
        ? crossReferenceLabel(child.anchor, targets)
        : inlineText(child.children, targets);
    case 'line-break':
      return '\n';
    case 'footnote-reference':
      return '';
  }
}

/** What a cross-reference without own words reads; an anchor that nothing holds is shown as it is. */
export function crossReferenceLabel(anchor: string, targets: Targets): string {
  return targets.anchors.get(anchor)?.label ?? anchor;
}

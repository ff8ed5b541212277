import {
  accent,
  bar,
  type Drawing,
  drawing,
  fitted,
  ink,
  line,
  pale,
  quiet,
  textWidth,
  words,
} from './drawing.ts';

/** One step of conditioning in the tree, after the step that it takes its units from. */
export interface TreeNode {
  readonly name: string;
  /** What is done: `accelerated ageing`. */
  readonly step: string;
  readonly units: number;
  /** Units that go on or are drawn. */
  readonly used: number;
  /** 0 for nodes that take their units from the lots. */
  readonly depth: number;
  /** For example `2026-01-12 to 2026-05-29`. */
  readonly when?: string;
  /** Tests with their units, and pulls: `VP-01A 30`. */
  readonly draws: readonly string[];
}

export interface ConditioningTreeInput {
  /** `L001, L002, L003: 1800 units`. */
  readonly lots: string;
  /** In the order of the tree: each node follows its parent or a sibling with all that comes after it. */
  readonly nodes: readonly TreeNode[];
}

const width = 660;
const indent = 22;
const boxWidth = 246;
const lineHeight = 15;
const gap = 7;

/** Words in lines of at most a width, broken between entries. */
const wrapped = (entries: readonly string[], room: number): readonly string[] => {
  const lines: string[] = [];
  for (const entry of entries) {
    const last = lines.at(-1);
    const joined = last === undefined ? entry : `${last}, ${entry}`;
    if (last !== undefined && textWidth(joined) <= room) lines[lines.length - 1] = joined;
    else lines.push(fitted(entry, room));
  }
  return lines;
};

/**
 * The way of the units from the lots to the tests as an indented tree. Each step is a box with its units, of which the
 * shaded part goes on or is drawn; beside it stand the tests that draw from it. Undefined where there are no steps.
 */
export function conditioningTree({ lots, nodes }: ConditioningTreeInput): Drawing | undefined {
  if (nodes.length === 0) return undefined;
  const deepest = Math.max(...nodes.map(({ depth }) => depth));
  // Deep trees are drawn with smaller steps to the right, so that the words beside the boxes keep their room.
  const step = Math.min(indent, 130 / Math.max(1, deepest + 1));
  const left = (depth: number): number => 8 + (depth + 1) * step;
  const right = (depth: number): number => left(depth) + boxWidth;
  const rows = nodes.map((node) => {
    const beside = wrapped(node.draws, width - right(node.depth) - 20);
    const inBox = node.when === undefined ? 2 : 3;
    return { node, beside, height: Math.max(inBox, beside.length) * lineHeight + 10 };
  });
  const top = 34;
  const starts = rows.map(
    (_, index) => top + rows.slice(0, index).reduce((sum, { height }) => sum + height + gap, 0),
  );
  const bottom = (starts.at(-1) ?? top) + (rows.at(-1)?.height ?? 0);
  const middle = (index: number): number => (starts[index] ?? 0) + (rows[index]?.height ?? 0) / 2;

  const boxes = rows.flatMap(({ node, beside, height }, index) => {
    const [x, y] = [left(node.depth), starts[index] ?? 0];
    const share = node.units > 0 ? Math.min(1, node.used / node.units) : 0;
    const over = node.used > node.units;
    const inner = boxWidth - 16;
    const parent = parentOf(nodes, index);
    const from = parent === undefined ? top - 8 : (starts[parent] ?? 0) + (rows[parent]?.height ?? 0);
    const stem = left(node.depth - 1) + step / 2;
    return [
      line(stem, from, stem, middle(index), { stroke: quiet }),
      line(stem, middle(index), x, middle(index), { stroke: quiet }),
      bar(x, y, boxWidth, height, { fill: '#ffffff', stroke: over ? ink : quiet, width: over ? 2.5 : 1 }),
      bar(x + 1, y + height - 5, (boxWidth - 2) * share, 4, { fill: accent }),
      bar(x + 1 + (boxWidth - 2) * share, y + height - 5, (boxWidth - 2) * (1 - share), 4, { fill: pale }),
      words(x + 8, y + 16, fitted(node.name, inner - 62), { bold: true }),
      words(x + boxWidth - 8, y + 16, `n = ${node.units}`, { anchor: 'end', bold: true }),
      words(x + 8, y + 16 + lineHeight, fitted(node.step, inner - 62), { fill: quiet }),
      words(
        x + boxWidth - 8,
        y + 16 + lineHeight,
        over ? `${node.used - node.units} too few` : `${node.units - node.used} left`,
        { anchor: 'end', fill: over ? ink : quiet, bold: over },
      ),
      ...(node.when === undefined
        ? []
        : [words(x + 8, y + 16 + 2 * lineHeight, fitted(node.when, inner), { fill: quiet, size: 12 })]),
      ...beside.map((text, at) => words(right(node.depth) + 12, y + 16 + at * lineHeight, text)),
    ];
  });
  return drawing(width, bottom + 30, alternativeText({ lots, nodes }), [
    words(8, 18, fitted(lots, width - 16), { bold: true, fill: accent }),
    ...boxes,
    words(8, bottom + 22, 'n: units that go through the step; dark: those that go on or are drawn', {
      fill: quiet,
      size: 12,
    }),
  ]);
}

/** Index of the node that another one comes from: the last one before it that is one step less deep. */
const parentOf = (nodes: readonly TreeNode[], index: number): number | undefined => {
  const depth = nodes[index]?.depth ?? 0;
  for (let at = index - 1; at >= 0; at -= 1) if ((nodes[at]?.depth ?? 0) < depth) return at;
  return undefined;
};

const alternativeText = ({ lots, nodes }: ConditioningTreeInput): string =>
  [
    lots,
    ...nodes.map(
      ({ name, step, units, used, depth, when, draws }, index) =>
        `${name} (${step}), level ${depth + 1}, after ${
          nodes[parentOf(nodes, index) ?? -1]?.name ?? 'the lots'
        }: ${units} units, ${used} used${when === undefined ? '' : `, ${when}`}${draws.length === 0 ? '' : `; ${draws.join(', ')}`}`,
    ),
  ].join('. ');

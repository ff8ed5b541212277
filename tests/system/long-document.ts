import type { Block, Document, Table } from '../../src/document/model.ts';
import { sampleDocument } from '../writers/sample-document.ts';

const sentence =
  'The applicator was filled with granules of 0.25 to 1.0 mm wetted with saline and squeezed twenty-five times at a steady pace. ';

/** Headings, prose, lists and tables over many pages, upright and lying, so that page numbers can go wrong. */
export const longDocument: Document = {
  ...sampleDocument,
  title: 'Verification report with many sections and a title that needs a line of its own',
  signatures: [],
  blocks: [...Array(12).keys()].flatMap((section): Block[] => {
    const blocks: Block[] = [
      { kind: 'heading', level: 1, children: [{ kind: 'text', value: `Chapter ${word(section)}` }] },
      ...[...Array(1 + (section % 4)).keys()].map(
        (n): Block => ({
          kind: 'paragraph',
          children: [{ kind: 'text', value: sentence.repeat(3 + ((section + n) % 5)) }],
        }),
      ),
      { kind: 'heading', level: 2, children: [{ kind: 'text', value: `Results of ${word(section)}` }] },
      table(section, 4 + ((section * 7) % 23)),
      {
        kind: 'list',
        ordered: true,
        items: [...Array(section % 6).keys()].map(() => ({
          blocks: [{ kind: 'paragraph', children: [{ kind: 'text', value: sentence }] }],
        })),
      },
    ];
    return section % 5 === 3 ? [{ kind: 'landscape', blocks }] : blocks;
  }),
  footnotes: [],
};

function word(n: number): string {
  return (
    [
      'amber',
      'birch',
      'cedar',
      'delta',
      'ember',
      'fjord',
      'grove',
      'heath',
      'islet',
      'jetty',
      'knoll',
      'larch',
    ][n] ?? ''
  );
}

function table(section: number, rows: number): Table {
  return {
    kind: 'table',
    caption: `Readings of ${word(section)}`,
    columns: [
      { title: 'Unit', width: 1 },
      { title: 'Remark', width: 5 },
      { title: 'Force in N', width: 1, align: 'right' },
    ],
    rows: [...Array(rows).keys()].map((n) => ({
      cells: [
        { children: [{ kind: 'text', value: `L001-${n + 1}` }] },
        { children: [{ kind: 'text', value: n % 3 === 0 ? sentence : 'no remark' }] },
        { children: [{ kind: 'text', value: (19 + ((n * 7) % 10) / 10).toFixed(1) }] },
      ],
    })),
  };
}

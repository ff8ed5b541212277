import type { Block, Document, Inline } from '../../src/document/model.ts';
import { sampleDocument } from './sample-document.ts';

/** Texts that a format might take for something else than text. */
export const hostileTexts = [
  `=cmd|' /C calc'!A0`,
  '<script>alert(1)</script>',
  '</w:t></w:r><w:p/>]]>',
  '&lt;not an entity&gt; &#0; &amp;',
  '" onmouseover="alert(1)',
  '\u202eright to left\u202c',
  'emoji 🦷 and e\u0301',
] as const;

const long = `VP-${'9'.repeat(200)}`;
const text = (value: string): Inline => ({ kind: 'text', value });

const blocks: Block[] = [
  { kind: 'heading', level: 4, children: hostileTexts.map(text), anchor: '"><b>', recordId: long },
  { kind: 'heading', level: 6, children: [], anchor: '' },
  { kind: 'heading', level: 1, children: [text('Same anchor')], anchor: '"><b>', recordId: long },
  { kind: 'paragraph', children: [text('a\u0000b\u001fc\ud800d\ufffee')], recordId: 'VP_1' },
  {
    kind: 'paragraph',
    children: [
      { kind: 'record-reference', id: long },
      { kind: 'record-reference', id: 'VP_1' },
    ],
  },
  {
    kind: 'paragraph',
    children: [
      { kind: 'cross-reference', anchor: '"><b>' },
      { kind: 'cross-reference', anchor: 'gone' },
    ],
  },
  {
    kind: 'paragraph',
    children: [
      { kind: 'external-link', target: 'https://example.org/"><script>&x=1', children: [text('link')] },
    ],
  },
  {
    kind: 'paragraph',
    children: [{ kind: 'external-link', target: 'javascript:alert(1)', children: [text('no link')] }],
  },
  {
    kind: 'list',
    ordered: true,
    start: 0,
    items: [{ blocks: [] }, { blocks: [{ kind: 'code', value: '\t<x>\r\n\n' }] }],
  },
  {
    kind: 'quote',
    blocks: [{ kind: 'heading', level: 1, children: [text('Within')] }, { kind: 'page-break' }],
  },
  {
    kind: 'table',
    caption: 'Nothing',
    anchor: 'nothing',
    columns: [],
    rows: [{ recordId: 'VP-5', cells: [] }],
  },
  {
    kind: 'list',
    ordered: false,
    items: [
      { blocks: [{ kind: 'paragraph', recordId: 'VP-3', children: [text('In a list')] }] },
      {
        blocks: [
          { kind: 'heading', level: 2, recordId: 'VP-4', anchor: 'nested', children: [text('In a list')] },
        ],
      },
      {
        blocks: [
          {
            kind: 'paragraph',
            children: [
              ...['VP-2', 'VP-3', 'VP-4', 'VP-5'].map((id): Inline => ({ kind: 'record-reference', id })),
              ...['nothing', 'nested', 'x"y'].map((anchor): Inline => ({ kind: 'cross-reference', anchor })),
            ],
          },
        ],
      },
    ],
  },
  {
    kind: 'table',
    caption: hostileTexts[1],
    anchor: 'x"y',
    columns: hostileTexts.map((title) => ({ title, width: 0 })),
    rows: [
      { recordId: long, cells: [{ children: [{ kind: 'record-reference', id: long }], rowSpan: 3 }] },
      { cells: hostileTexts.map((each) => ({ children: [text(each)] })) },
      { recordId: 'VP-2', cells: [] },
    ],
  },
  { kind: 'page-break' },
  { kind: 'landscape', blocks: [{ kind: 'page-break' }] },
  { kind: 'landscape', blocks: [{ kind: 'rule' }, { kind: 'notice', tone: 'bad', blocks: [] }] },
];

/** A document in which every text tries to break out. */
export const hostileDocument: Document = {
  ...sampleDocument,
  title: hostileTexts.join(' '),
  subtitle: hostileTexts[3],
  number: hostileTexts[4],
  date: 'soon',
  signatures: hostileTexts.map((each) => ({
    role: each,
    name: each,
    meaning: each,
    date: each,
    state: each,
  })),
  blocks,
  footnotes: [],
  provenance: [
    { name: 'REVISION', value: 'a second one' },
    ...hostileTexts.map((each) => ({ name: each, value: each })),
  ],
  recordTitles: new Map([[long, hostileTexts[4]]]),
};

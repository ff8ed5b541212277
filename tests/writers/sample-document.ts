import type { Block, Document, Inline, Row } from '../../src/document/model.ts';
import { plainPng } from './plain-png.ts';

const text = (value: string): Inline => ({ kind: 'text', value });
const record = (id: string): Inline => ({ kind: 'record-reference', id });
const lineBreak: Inline = { kind: 'line-break' };
const paragraph = (...children: readonly (string | Inline)[]): Block => ({
  kind: 'paragraph',
  children: children.map((child) => (typeof child === 'string' ? text(child) : child)),
});

/** A picture of 80 by 30 pixels as figures give it: a line that says what it shows without colour. */
const sampleSvg =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 480 180"><rect width="480" height="180" fill="#fff"/>' +
  '<path d="M40 150H460M40 150V20" stroke="#243b4a" fill="none" stroke-width="2"/>' +
  '<path d="M60 140L140 96L220 104L300 60L420 34" stroke="#0b6a70" fill="none" stroke-width="3"/></svg>';

const inputs: readonly (readonly [string, string, readonly string[], string, string])[] = [
  [
    'DI-01',
    'Squeeze force on any of 25 strokes with wetted granules at most 25 N',
    ['VP-01', 'VP-01A'],
    'VR-01',
    'pass',
  ],
  ['DI-03', 'Volume per stroke 17.0 to 23.0 mm³', ['VP-03'], 'VR-03', 'pass'],
  ['DI-05', 'Residual volume at most 30 mm³', ['VP-05'], 'VR-05', 'pass'],
  [
    'DI-09',
    'Tip retention at least 30 N along the axis, fresh and aged',
    ['VP-09', 'VP-09A', 'VP-09B'],
    'VR-09A',
    'fail',
  ],
  ['DI-10', 'Tip bending fracture at least 20 N, 10 mm from the end', ['VP-10'], 'VR-10', 'pass'],
  ['DI-18', 'Particles: at most 6,000 of 10 µm and more, at most 600 of 25 µm and more', [], '', 'undecided'],
];

const tones = { pass: 'good', fail: 'bad', undecided: 'caution' } as const;

function matrixRows(): Row[] {
  return inputs.flatMap(([id, words, protocols, report, verdict], index) => {
    const protocolCell: Inline[] = protocols.flatMap((each, at) =>
      at === 0 ? [record(each)] : [lineBreak, record(each)],
    );
    const row: Row = {
      recordId: id,
      cells: [
        ...(index === 1
          ? []
          : [
              {
                children: [record('UN-01')],
                ...(index === 0 && { rowSpan: 2 }),
              },
            ]),
        { children: [record(id)] },
        { children: [text(words)] },
        { children: protocolCell },
        {
          children:
            report === '' ? [{ kind: 'text', value: 'none', tone: 'quiet' } as const] : [record(report)],
        },
        {
          children: [
            {
              kind: 'text',
              value: verdict,
              tone: tones[verdict as keyof typeof tones],
            },
          ],
        },
      ],
    };
    return [row];
  });
}

const body: readonly Block[] = [
  {
    kind: 'heading',
    level: 1,
    children: [text('Purpose and scope')],
    anchor: 'purpose',
  },
  paragraph(
    'This summary states what the verification of the granule applicator DGA-1 showed, computed from the raw measurements. It covers the design inputs of ',
    { kind: 'cross-reference', anchor: 'matrix' },
    ' and the records in ',
    { kind: 'cross-reference', anchor: 'results' },
    '.',
    { kind: 'footnote-reference', index: 0 },
  ),
  paragraph(
    { kind: 'text', value: 'Bold', bold: true },
    ', ',
    { kind: 'text', value: 'italic', italic: true },
    ', ',
    { kind: 'text', value: 'struck out', strike: true },
    ', ',
    { kind: 'text', value: 'code_word', code: true },
    ', a verdict of ',
    { kind: 'text', value: 'pass', tone: 'good' },
    ', one of ',
    { kind: 'text', value: 'fail', tone: 'bad' },
    ', one ',
    { kind: 'text', value: 'undecided', tone: 'caution' },
    ', and a ',
    { kind: 'text', value: 'quiet remark', tone: 'quiet' },
    '. The statute book is on the ',
    {
      kind: 'external-link',
      target: 'https://example.org/statutes?a=1&b=2',
      children: [text('publisher’s page')],
    },
    '; the record ',
    record('VP-99'),
    ' stands in another document, ',
    record('VP-09A'),
    ' in this one.',
  ),
  {
    kind: 'list',
    ordered: false,
    items: [
      { blocks: [paragraph('Units come from three lots, ten from each.')] },
      {
        blocks: [
          paragraph('Limits are one-sided where harm lies on one side only:'),
          {
            kind: 'list',
            ordered: true,
            start: 3,
            items: [
              { blocks: [paragraph('force from above,')] },
              {
                blocks: [paragraph('retention from below.'), paragraph('A second paragraph of the item.')],
              },
            ],
          },
        ],
      },
      { checked: true, blocks: [paragraph('Gauge study accepted')] },
      { checked: false, blocks: [paragraph('Particle count planned')] },
    ],
  },
  {
    kind: 'heading',
    level: 2,
    children: [text('Rules of decision')],
    anchor: 'rules',
  },
  paragraph(
    'A verdict is never typed. It is computed from the raw data of the record with the method that the protocol names, and held against the acceptance of the protocol and the limit of the design input; where the assumptions of the method do not hold, the verdict is undecided and counts as not shown.',
  ),
  paragraph(
    'A verdict is ',
    { kind: 'text', value: 'pass', tone: 'good' },
    ' where the tolerance limit keeps within the design input’s limit, see ',
    {
      kind: 'cross-reference',
      anchor: 'matrix',
      children: [text('the matrix')],
    },
    '.',
  ),
  {
    kind: 'quote',
    blocks: [
      paragraph('The largest reading is not the limit: thirty good units say little about the thousandth.'),
    ],
  },
  {
    kind: 'notice',
    tone: 'caution',
    blocks: [
      paragraph(
        { kind: 'text', value: 'Caution: ', bold: true },
        'the retest on tips of revision B is a change of design, not a repeat.',
      ),
      {
        kind: 'list',
        ordered: false,
        items: [{ blocks: [paragraph('See the change record.')] }],
      },
    ],
  },
  {
    kind: 'code',
    language: 'text',
    value: 'k(0.95, 0.99, 30) = 3.064\nlower limit = mean - k * s\n\tindented line',
  },
  {
    kind: 'table',
    columns: [
      { title: 'Quantity', width: 3 },
      { title: 'Value', width: 1, align: 'right' },
      { title: 'Unit', width: 1, align: 'center' },
    ],
    rows: [
      {
        cells: [
          { children: [text('bore area')] },
          { children: [text('12.566')] },
          { children: [text('mm²')] },
        ],
      },
      {
        cells: [
          { children: [text('volume per stroke')] },
          { children: [text('20.106')] },
          { children: [text('mm³')] },
        ],
      },
    ],
  },
  { kind: 'rule' },
  { kind: 'heading', level: 1, children: [text('Results')], anchor: 'results' },
  {
    kind: 'heading',
    level: 2,
    children: [text('Tip retention, aged')],
    recordId: 'VP-09A',
    anchor: 'vp-09a',
  },
  {
    kind: 'particulars',
    entries: [
      { name: 'Record', value: [record('VP-09A')] },
      {
        name: 'Sample',
        value: [text('30 units, 10 from each of the lots L001, L002, L003, aged 137 days at 55 °C')],
      },
      {
        name: 'Acceptance',
        value: [text('95/99 lower tolerance limit at least 30 N')],
      },
      {
        name: 'Verdict',
        value: [{ kind: 'text', value: 'fail', tone: 'bad' }, text(': the limit is 29.12 N')],
      },
    ],
  },
  paragraph(
    'No single reading is below 30 N, yet the tolerance limit is: ',
    { kind: 'cross-reference', anchor: 'limits' },
    ' shows why.',
  ),
  {
    kind: 'table',
    caption: 'Tolerance limits by protocol',
    anchor: 'limits',
    columns: [
      { title: 'Protocol', width: 2 },
      { title: 'n', width: 1, align: 'right' },
      { title: 'Mean', width: 1, align: 'right' },
      { title: 's', width: 1, align: 'right' },
      { title: 'Tolerance limit', width: 2, align: 'right' },
      { title: 'Verdict', width: 2 },
    ],
    rows: (
      [
        ['VP-09', '30', '51.8', '5.9', '33.72', 'pass'],
        ['VP-09A', '30', '47.2', '5.9', '29.12', 'fail'],
        ['VP-09B', '30', '52.0', '5.4', '35.45', 'pass'],
      ] as const
    ).map(([id, n, mean, s, limit, verdict]) => ({
      cells: [
        { children: [record(id)] },
        ...[n, mean, s, limit].map((value) => ({ children: [text(value)] })),
        {
          children: [{ kind: 'text', value: verdict, tone: tones[verdict] } as const],
        },
      ],
    })),
  },
  {
    kind: 'figure',
    caption: 'Tip retention by lot, in newtons',
    anchor: 'retention',
    svg: sampleSvg,
    alternative: 'A line that rises from lot L001 to lot L003 and stays above 30 N.',
    widthPx: 480,
    heightPx: 180,
  },
  {
    kind: 'figure',
    caption: 'Tip under the lens',
    anchor: 'tip',
    svg: '',
    png: Buffer.from(plainPng(120, 60)).toString('base64'),
    source: { file: 'pictures/tip.png', sha256: '0'.repeat(64) },
    alternative: 'A grey field with a dark line from corner to corner.',
    widthPx: 120,
    heightPx: 60,
  },
  {
    kind: 'heading',
    level: 2,
    children: [text('Tip retention, revision B')],
    recordId: 'VP-09B',
  },
  paragraph(
    'Thirty tips of revision B were aged and pulled, see ',
    { kind: 'cross-reference', anchor: 'retention' },
    '.',
  ),
  { kind: 'page-break' },
  { kind: 'heading', level: 2, children: [text('Seal strength')] },
  {
    kind: 'paragraph',
    recordId: 'VR-10',
    children: [text('The seal was pulled on strips of 15 mm.'), { kind: 'footnote-reference', index: 1 }],
  },
  {
    kind: 'landscape',
    blocks: [
      {
        kind: 'heading',
        level: 1,
        children: [text('Design trace matrix')],
        anchor: 'trace',
      },
      {
        kind: 'table',
        caption: 'User needs, design inputs and what verifies them',
        anchor: 'matrix',
        description: 'One row for each design input with its protocols, report and verdict',
        columns: [
          { title: 'User need', width: 1 },
          { title: 'Input', width: 1 },
          { title: 'Requirement', width: 6 },
          { title: 'Protocols', width: 1 },
          { title: 'Report', width: 1 },
          { title: 'Verdict', width: 1 },
        ],
        rows: [...matrixRows(), ...matrixRows().slice(2), ...matrixRows().slice(2), ...matrixRows().slice(2)],
      },
    ],
  },
  { kind: 'heading', level: 1, children: [text('References')] },
  paragraph('Standards are listed in the standards list.'),
];

/** A document that holds every kind of block and inline. All facts are invented. */
export const sampleDocument: Document = {
  id: 'DOC-03',
  title: 'Verification summary of the dental granule applicator',
  subtitle: 'Design verification, fresh and aged units',
  number: 'DOC-03',
  revision: 'B',
  status: 'in review',
  date: '2026-11-02',
  organisation: 'Harrow Lane Instruments',
  product: 'Dental granule applicator DGA-1',
  language: 'en-GB',
  signatures: [
    {
      role: 'Design lead',
      name: 'M. Okafor',
      meaning: 'Content is complete and correct',
      date: '2026-10-30',
      state: 'in force',
    },
    {
      role: 'Quality',
      name: 'R. Lindqvist',
      meaning: 'Meets the procedures',
      date: '2026-10-12',
      state: 'lapsed',
    },
    {
      role: 'Regulatory',
      name: '',
      meaning: 'Fit for the technical documentation',
      date: '',
      state: 'unsigned',
    },
  ],
  blocks: body,
  footnotes: [
    [paragraph('Raw data lie beside the records, named by their check sum.')],
    [
      paragraph(
        'Strips are cut by template; see ',
        {
          kind: 'external-link',
          target: 'https://example.org/strips',
          children: [text('the drawing')],
        },
        '.',
      ),
    ],
  ],
  caution: 'Compiled from records.',
  provenance: [
    { name: 'Compiled by', value: 'Plinth 0.1.0' },
    {
      name: 'Content digest',
      value: 'sha256:3f1c9a0b7d2e4c5f6a7b8c9d0e1f2a3b4c5d6e7f8091a2b3c4d5e6f708192a3b',
    },
    { name: 'Source revision', value: '1a2b3c4' },
    {
      name: 'Caution',
      value: 'Plinth computes and checks; it does not decide that a device is safe or that a file complies.',
    },
  ],
  recordTitles: new Map([
    ['VP-09A', 'Tip retention after ageing'],
    ['DI-09', 'Tip retention'],
  ]),
};

// A program of its own, so that its memory can be measured: a matrix of so many rows as a Word file, by the writer or
// by the least that any writer must do, which is to put the text of the cells with width, style and marks into elements
// and zip them.
import { strToU8, zipSync } from 'fflate';
import type { Document, Row } from '../../src/document/model.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';

const [mode = '', count = '0'] = process.argv.slice(2);
const columns = ['User need', 'Design input', 'Design output', 'Protocol', 'Record', 'Verdict'];

const cellsOf = (row: number): readonly string[] => [
  `UN-${row % 14}`,
  `DI-${row}: squeeze force at most ${(row % 40) + 5}.0 N on each of 25 strokes`,
  `DO-${row % 13}`,
  `VP-${row}`,
  `VR-${row}: upper bound ${((row * 7) % 100) / 10} N`,
  row % 9 === 0 ? 'planned' : 'pass',
];

const floor = (): Uint8Array => {
  const rows: string[] = [];
  for (let row = 0; row < Number(count); row += 1)
    rows.push(
      `<w:tr><w:trPr><w:cantSplit/></w:trPr>${cellsOf(row)
        .map(
          (text, column) =>
            `<w:tc><w:tcPr><w:tcW w:w="1500" w:type="dxa"/></w:tcPr><w:p><w:pPr><w:pStyle w:val="TableText"/></w:pPr>${column === 0 ? `<w:bookmarkStart w:id="${row}" w:name="rec_DI_${row}"/>` : ''}<w:r><w:t xml:space="preserve">${text.replace(/[&<>"]/g, ' ')}</w:t></w:r>${column === 0 ? `<w:bookmarkEnd w:id="${row}"/>` : ''}</w:p></w:tc>`,
        )
        .join('')}</w:tr>`,
    );
  return zipSync({
    'word/document.xml': strToU8(`<w:document><w:tbl>${rows.join('')}</w:tbl></w:document>`),
  });
};

const document = (): Document => ({
  id: 'DOC-01',
  title: 'Design trace matrix',
  number: 'TM-001',
  revision: 'A',
  status: 'draft',
  date: '2026-11-20',
  organisation: 'Harrow Lane Instruments',
  product: 'Test device',
  language: 'en-GB',
  signatures: [],
  footnotes: [],
  caution: '',
  provenance: [{ name: 'Document', value: 'TM-001, revision A' }],
  recordTitles: new Map(),
  blocks: [
    { kind: 'heading', level: 1, children: [{ kind: 'text', value: 'Matrix' }] },
    {
      kind: 'table',
      caption: 'From user need to verdict',
      columns: columns.map((title) => ({ title, width: 1 })),
      rows: Array.from({ length: Number(count) }, (_, row): Row => {
        const [need = '', input = '', ...others] = cellsOf(row);
        return {
          recordId: `DI-${row}`,
          cells: [
            { children: [{ kind: 'record-reference', id: need }] },
            ...[input, ...others].map((value) => ({ children: [{ kind: 'text' as const, value }] })),
          ],
        };
      }),
    },
  ],
});

const start = process.cpuUsage();
const bytes = mode === 'floor' ? floor() : (await writeDocx(document())).bytes;
const { user, system } = process.cpuUsage(start);
console.info(
  JSON.stringify({
    // Of the processor, not of the clock: other work on the machine does not count.
    milliseconds: (user + system) / 1000,
    megabytes: process.resourceUsage().maxRSS / 1024,
    bytes: bytes.length,
  }),
);

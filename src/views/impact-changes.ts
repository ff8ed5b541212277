import type { RecordChange } from '../change/compare-records.ts';
import type { ValueChange } from '../change/compare-values.ts';
import type { ParagraphChange } from '../change/compare-words.ts';
import type { Impact } from '../change/impact.ts';
import type { Block, Cell, Inline } from '../document/model.ts';
import { cell, nothing, onLines, orNothing, reference, references, text } from './cells.ts';
import { heading, named, paragraph, table } from './impact-pieces.ts';

const demandWords: Readonly<Record<NonNullable<ValueChange['demand']>, string>> = {
  tighter: ' (tighter)',
  looser: ' (looser)',
};

const valueRow = (lead: Cell, change: ValueChange): readonly Cell[] => [
  lead,
  cell(text(change.label)),
  cell(change.before === undefined ? nothing() : text(change.before)),
  cell(
    ...(change.after === undefined
      ? [nothing()]
      : [text(change.after, { bold: true }), text(change.demand ? demandWords[change.demand] : '')]),
  ),
];

/** Words around a change that are shown; the rest of a long paragraph is left out. */
const wordsAround = 60;

const shortened = (value: string, index: number, last: number): string => {
  if (value.length <= 2 * wordsAround) return value;
  const head = index === 0 ? '' : value.slice(0, wordsAround);
  const tail = index === last ? '' : value.slice(-wordsAround);
  return `${head} … ${tail}`;
};

const paragraphWords = (change: ParagraphChange): readonly Inline[] =>
  change.runs.map((run, index) =>
    run.kind === 'same'
      ? text(shortened(run.text, index, change.runs.length - 1))
      : run.kind === 'added'
        ? text(run.text, { inserted: true })
        : text(run.text, { strike: true }),
  );

const statusWords = (change: RecordChange): string =>
  change.statusBefore !== undefined &&
  change.statusAfter !== undefined &&
  change.statusBefore !== change.statusAfter
    ? `status ${change.statusBefore} → ${change.statusAfter}`
    : '';

const whatBecame = (change: RecordChange): string =>
  [
    change.kind === 'changed' ? (change.isNormative ? 'content changed' : '') : change.kind,
    statusWords(change),
  ]
    .filter((part) => part !== '')
    .join('; ');

/** What differs: records, values, words, raw data. */
export const whatChanged = ({ records, settings, dataFiles }: Impact): readonly Block[] => {
  const values = [
    ...settings.map((change) => valueRow(cell(text('plinth.yaml')), change)),
    ...records.flatMap((record) =>
      record.fields.map((change) => valueRow(cell(reference(record.id)), change)),
    ),
  ];
  const bodies = records.filter((record) => record.body.length > 0);
  const blocks: Block[] = [heading('What changed')];
  if (records.length + settings.length + dataFiles.length === 0)
    blocks.push(paragraph(text('No record, setting or raw-data file differs.')));
  if (records.length > 0)
    blocks.push(
      table(
        'Records that differ',
        [
          { title: 'Record', width: 40 },
          { title: 'Type', width: 25 },
          { title: 'What became of it', width: 35 },
        ],
        records.map((record) => [
          named(record.id, record.title),
          cell(text(record.type)),
          cell(text(whatBecame(record))),
        ]),
      ),
    );
  if (values.length > 0)
    blocks.push(
      table(
        'Values that differ',
        [
          { title: 'Record', width: 12 },
          { title: 'Value', width: 30 },
          { title: 'Before', width: 29 },
          { title: 'After', width: 29 },
        ],
        values,
      ),
    );
  if (bodies.length > 0)
    blocks.push(
      table(
        'Words that differ: what was taken out is struck through, what was put in underlined',
        [
          { title: 'Record', width: 12 },
          { title: 'Line', width: 8, align: 'right' },
          { title: 'Words', width: 80 },
        ],
        bodies.flatMap((record) =>
          record.body.map((change) => [
            cell(reference(record.id)),
            cell(text(String(change.line))),
            cell(...paragraphWords(change)),
          ]),
        ),
      ),
    );
  if (dataFiles.length > 0)
    blocks.push(
      table(
        'Raw-data files that differ',
        [
          { title: 'File', width: 35 },
          { title: 'What became of it', width: 15 },
          { title: 'Named by', width: 15 },
          { title: 'SHA-256 before and after', width: 35 },
        ],
        dataFiles.map((file) => [
          cell(text(file.path)),
          cell(text(file.kind)),
          cell(...orNothing(references(file.records), 'no record')),
          cell(
            ...onLines([
              [file.digestBefore ? text(file.digestBefore.slice(0, 16), { code: true }) : nothing()],
              [file.digestAfter ? text(file.digestAfter.slice(0, 16), { code: true }) : nothing()],
            ]),
          ),
        ]),
      ),
    );
  return blocks;
};

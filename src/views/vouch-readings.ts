import type { Block } from '../document/model.ts';
import { unitText } from '../records/units.ts';
import { type RawData, rowsAtEitherEnd } from '../vouch/raw-data.ts';
import type { VouchReadings, VouchReport } from '../vouch/vouch.ts';
import { cell, reference, text } from './cells.ts';
import { heading, table } from './vouch-pieces.ts';

/** The readings that counted, and both ends of the raw data of the results that still count: those that nothing repeats. */
export const measurements = ({ claim, down, readings, rawData }: VouchReport): readonly Block[] => {
  const repeated = new Set(
    [claim, ...down].filter((step) => step.repeatedBy.length > 0).map((step) => step.id),
  );
  const judgesMethod = new Set(
    [claim, ...down].filter((step) => step.type === 'test-method' && step !== claim).map((step) => step.id),
  );
  const shown = rawData.filter(
    ({ record, first }) => first.length > 0 && !repeated.has(record) && !judgesMethod.has(record),
  );
  if (readings.length === 0 && shown.length === 0) return [];
  return [
    heading(2, 'Readings'),
    ...(readings.length > 0 ? [readingsTable(readings, repeated)] : []),
    ...shown.flatMap(rowsTable),
  ];
};

const readingsTable = (readings: readonly VouchReadings[], repeated: ReadonlySet<string>): Block =>
  table(
    'Readings that counted',
    [
      { title: 'Record', width: 24 },
      { title: 'Characteristic', width: 36 },
      { title: 'Number', width: 12, align: 'right' },
      { title: 'Smallest', width: 14, align: 'right' },
      { title: 'Largest', width: 14, align: 'right' },
    ],
    readings.map((each) => {
      const unit = unitText(each.unit);
      return [
        cell(
          reference(each.record),
          ...(repeated.has(each.record) ? [text(' (repeated)', { tone: 'quiet' })] : []),
        ),
        cell(text(`${each.characteristic}${unit === '' ? '' : ` in ${unit}`}`)),
        cell(text(String(each.readings.length))),
        cell(text(String(smallest(each.readings)))),
        cell(text(String(largest(each.readings)))),
      ];
    }),
  );

/** More columns than these are no table to read; an auditor opens the file. */
const mostColumns = 7;

/** The first and the last rows of a raw-data file, as they are written there. */
const rowsTable = ({ record, file, rows, columns, first, last }: RawData): readonly Block[] => {
  const shown = columns.slice(0, mostColumns);
  const rest = columns.length - shown.length;
  return [
    table(
      `Raw data of ${record}: first and last ${rowsAtEitherEnd} of ${rows ?? 0} rows of ${file}${
        rest > 0 ? `, without ${rest} further ${rest === 1 ? 'column' : 'columns'}` : ''
      }`,
      [
        { title: 'Line', width: 8, align: 'right' },
        ...shown.map((title) => ({ title, width: 92 / shown.length })),
      ],
      [...first, ...last].map(({ line, cells }) => [
        cell(text(String(line))),
        ...shown.map((_, index) => cell(text(cells[index] ?? ''))),
      ]),
    ),
  ];
};

// A loop, since a list of a hundred thousand readings is too long for the arguments of Math.min.
const smallest = (list: readonly number[]): number => list.reduce((a, b) => Math.min(a, b));
const largest = (list: readonly number[]): number => list.reduce((a, b) => Math.max(a, b));

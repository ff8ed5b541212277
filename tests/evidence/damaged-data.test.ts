import { describe, expect, test } from 'vitest';
import { evaluateEvidence } from '../../src/evidence/evaluate.ts';
import type { EvidenceResult } from '../../src/evidence/result.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';

/** Every passing verdict of the demonstration file, and what becomes of it when its raw data are damaged. */
const { graph, files, evidence } = analyse(inputsFrom(readTree('content')), []);

const passing = [...evidence.values()].filter(
  (result) => result.verdict === 'pass' && result.dataFile !== undefined,
);

const textOf = (result: EvidenceResult): string =>
  new TextDecoder().decode(files.get(result.dataFile ?? '')?.bytes);

/** The verdict with other data. */
const withData = ({ record, dataFile = '' }: EvidenceResult, text: string): EvidenceResult => {
  const known = graph.record(record);
  if (!known) throw new Error(record);
  const one = { ...graph, records: new Map([[record, known]]) };
  const bytes = new TextEncoder().encode(text);
  const found = evaluateEvidence(one, new Map([...files, [dataFile, { path: dataFile, bytes }]])).get(record);
  if (!found) throw new Error(record);
  return found;
};

/** Columns that carry readings: those that the record maps, those of a log, or those of the study. */
const readingColumns = (result: EvidenceResult): readonly number[] => {
  const heading = (textOf(result).split('\n')[0] ?? '')
    .split(',')
    .map((name) => name.replace(/\[.*\]/, '').trim());
  const record = graph.record(result.record);
  const data = record?.fields['data'] as
    | { readonly columns?: readonly { readonly column: string }[] }
    | undefined;
  // The log of an analysis has its columns by their usual names, a study those of its kind.
  const usual = data ? ['temperature', 'relative humidity'] : ['reading', 'call'];
  const wanted = data?.columns?.map((each) => each.column) ?? usual;
  return heading.flatMap((name, index) => (wanted.includes(name) ? [index] : []));
};

const changeCell = (text: string, line: number, column: number, cell: string): string =>
  text
    .split('\n')
    .map((row, index) =>
      index === line
        ? row
            .split(',')
            .map((old, at) => (at === column ? cell : old))
            .join(',')
        : row,
    )
    .join('\n');

test('there are data to damage', () => {
  expect(passing.length).toBeGreaterThan(20);
  for (const result of passing) {
    expect(textOf(result), 'the damage is done by splitting at commas').not.toContain('"');
    expect(readingColumns(result).length, result.record).toBeGreaterThan(0);
    expect(withData(result, textOf(result)).verdict).toBe('pass');
  }
});

describe('no verdict passes', () => {
  test.each(['', 'abc', '1,5', 'NaN', '=A1', '1 000', '12 N', '#REF!', '?'].map((cell) => [cell]))(
    'with a reading %j',
    (cell) => {
      for (const result of passing) {
        const text = textOf(result);
        const rows = text.trimEnd().split('\n').length - 1;
        for (const column of readingColumns(result))
          for (const line of [1, Math.ceil(rows / 2), rows]) {
            const found = withData(
              result,
              changeCell(text, line, column, cell.includes(',') ? `"${cell}"` : cell),
            );
            expect(found.verdict, `${result.record} line ${line + 1}`).not.toBe('pass');
            expect(
              found.findings.some((finding) => finding.place.line === line + 1),
              `${result.record} names the row`,
            ).toBe(true);
          }
      }
    },
  );

  test('without a column of readings, or with readings of another quantity', () => {
    for (const result of passing)
      for (const column of readingColumns(result)) {
        const text = textOf(result);
        expect(withData(result, changeCell(text, 0, column, 'renamed')).verdict).not.toBe('pass');
        const name = (text.split('\n')[0]?.split(',')[column] ?? '').replace(/ *\[.*/, '');
        const isMeasured = result.characteristics.some(
          ({ limits }) => limits.unit !== '1' && limits.unit !== '%',
        );
        if (isMeasured && result.method !== 'attribute' && result.method !== 'all-units')
          expect(
            withData(result, changeCell(text, 0, column, `${name} [cd]`)).verdict,
            result.record,
          ).not.toBe('pass');
      }
  });

  test('with a row fewer than planned, or a file cut off', () => {
    let exact = 0;
    for (const result of passing) {
      // What studies with users lack is for a check of its own; half a gauge study is a smaller gauge study.
      if (!result.record.startsWith('VR-')) continue;
      const lines = textOf(result).trimEnd().split('\n');
      const upTo = (count: number): string => `${lines.slice(0, count).join('\n')}\n`;
      if (lines.length - 1 === result.plannedSize) {
        exact += 1;
        expect(withData(result, upTo(lines.length - 1)).verdict, `${result.record} less one`).not.toBe(
          'pass',
        );
      }
      for (const count of [Math.ceil(lines.length / 2), 1, 0])
        expect(withData(result, upTo(count)).verdict, `${result.record} ${count}`).not.toBe('pass');
    }
    expect(exact).toBeGreaterThan(10);
  });

  test('with one of several readings of a unit gone', () => {
    let several = 0;
    for (const result of passing) {
      const lines = textOf(result).trimEnd().split('\n');
      if (!result.record.startsWith('VR-') || result.unitCount * 2 > lines.length - 1) continue;
      if (result.method === 'laboratory-maximum' || result.method === 'inspection-checklist') continue;
      several += 1;
      for (const line of [1, Math.ceil(lines.length / 2), lines.length - 1]) {
        const found = withData(result, `${lines.filter((_, index) => index !== line).join('\n')}\n`);
        expect(found.verdict, `${result.record} line ${line + 1}`).toBe('undecided');
        expect(found.reason).toMatch(/has \d+ rows of readings, .* has \d+; nothing says why/);
      }
    }
    expect(several).toBeGreaterThan(0);
  });
});

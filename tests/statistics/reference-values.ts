import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Computed } from '../../src/statistics/data-problem.ts';

/** A published or independently computed value, with where it comes from. */
export interface ReferenceValue {
  readonly id: string;
  readonly topic: string;
  // biome-ignore lint/suspicious/noExplicitAny: the inputs differ by topic; each test reads what its topic has.
  readonly inputs: any;
  readonly expected: number | readonly number[];
  readonly tolerance: number;
  readonly rounding?: 'ceil-4';
  readonly source: string;
  readonly provenance: string;
  /** The value of R 4.2.2, an independent implementation. */
  readonly r_value: number | readonly number[] | null;
  /** false: the source is known to be off, `flag` says how; null: a constant that R cannot check. */
  readonly agrees: boolean | null;
  readonly flag?: string;
}

const all: readonly ReferenceValue[] = JSON.parse(
  readFileSync(new URL('reference-values.json', import.meta.url), 'utf8'),
);

export const topics: readonly string[] = [...new Set(all.map((value) => value.topic))];

export function referencesOf(topic: string): readonly ReferenceValue[] {
  return all.filter((value) => value.topic === topic);
}

export interface TopicRun {
  readonly topic: string;
  /** How many values the topic has, and how many of them this run computes. */
  readonly expected: { readonly total: number; readonly computed: number };
  readonly compute: (reference: ReferenceValue) => number | readonly number[] | undefined;
  /** Ids that are not computed, each with the reason. */
  readonly notComputed?: Readonly<Record<string, string>>;
  /** Ids whose R value is itself rougher than 1e-9, with the relative tolerance that it deserves and why. */
  readonly roughR?: Readonly<Record<string, readonly [tolerance: number, why: string]>>;
}

/** One test per value, and one that counts them: a run over nothing fails. */
export function checkTopic({ topic, expected, compute, notComputed = {}, roughR = {} }: TopicRun): void {
  const references = referencesOf(topic);
  const due = references.filter((reference) => !(reference.id in notComputed));

  test(`${topic}: ${expected.computed} of ${expected.total} values are computed`, () => {
    expect(references.length).toBe(expected.total);
    expect(due.length).toBe(expected.computed);
    const ids = new Set(references.map((reference) => reference.id));
    for (const id of [...Object.keys(notComputed), ...Object.keys(roughR)]) expect(ids).toContain(id);
  });

  for (const reference of due) {
    const flag = reference.agrees === false ? ` [differs: ${reference.flag}]` : '';
    test(`${reference.id}, ${reference.source}${flag}`, () => {
      const result = compute(reference);
      if (result === undefined) throw new Error(`${reference.id} has no computation`);
      checkValue(result, reference, roughR[reference.id]?.[0] ?? 1e-9);
    });
  }
}

function checkValue(
  result: number | readonly number[],
  reference: ReferenceValue,
  relativeToR: number,
): void {
  const values = [result].flat() as number[];
  const printed = [reference.expected].flat() as number[];
  expect(values.length).toBe(printed.length);
  values.forEach((value, i) => {
    const print = printed[i]!;
    const distance = Math.abs(value - print);
    if (reference.agrees === false) expect(distance).toBeGreaterThan(reference.tolerance);
    else expect(distance).toBeLessThanOrEqual(reference.tolerance);
    if (reference.rounding === 'ceil-4') expect(Math.ceil(value * 1e4) / 1e4).toBeCloseTo(print, 9);
    if (reference.r_value !== null)
      expectRelative(value, ([reference.r_value].flat() as number[])[i]!, relativeToR);
  });
}

/** |value - truth| <= tolerance x |truth|. */
export function expectRelative(value: number, truth: number, tolerance: number): void {
  expect(Math.abs(value - truth), `${value} against ${truth}`).toBeLessThanOrEqual(
    tolerance * Math.abs(truth),
  );
}

/** The value of a computation that must have succeeded. */
export function valueFrom<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.reason);
  return result.value;
}

/** A column of numbers from data/NAME.csv; the first column unless named. */
export function readColumn(name: string, column?: string): number[] {
  const rows = readRows(name);
  const key = column ?? Object.keys(rows[0]!)[0]!;
  return rows.map((row) => Number(row[key]));
}

export function readRows(name: string): Record<string, string>[] {
  const [head, ...lines] = readFileSync(new URL(`data/${name}.csv`, import.meta.url), 'utf8')
    .trim()
    .split(/\r?\n/);
  const keys = head!.split(',');
  return lines.map((line) => Object.fromEntries(line.split(',').map((cell, i) => [keys[i]!, cell])));
}

/** The data lines of a NIST StRD file, as its own header numbers them. */
export function readStrd(file: string): number[][] {
  const lines = readFileSync(new URL(`data/strd/${file}`, import.meta.url), 'utf8').split(/\r?\n/);
  const range = lines
    .slice(0, 12)
    .join(' ')
    .match(/Data\s*:?\s*\(?lines\s+(\d+)\s+to\s+(\d+)/);
  if (!range) throw new Error(`${file} does not say where its data are`);
  return lines
    .slice(Number(range[1]) - 1, Number(range[2]))
    .map((line) => line.trim().split(/\s+/).map(Number));
}

import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/index.ts';
import { shippedClauseTables } from '../../src/regulation/clause-tables.ts';

/**
 * Clauses of ISO 14971:2019 that have a number of their own (contents of the standard; from memory, so that no check of
 * level error rests on them alone).
 */
const riskManagement = new Set(
  '3 4 4.1 4.2 4.3 4.4 4.5 5 5.1 5.2 5.3 5.4 5.5 6 7 7.1 7.2 7.3 7.4 7.5 7.6 8 9 10 10.1 10.2 10.3 10.4'.split(
    ' ',
  ),
);
/** Clauses of IEC 62366-1:2015 with its amendment of 2020; from memory. */
const usability = new Set(
  '4.1 4.1.1 4.1.2 4.1.3 4.2 4.3 5.1 5.2 5.3 5.4 5.5 5.6 5.7 5.7.1 5.7.2 5.7.3 5.8 5.9 5.10'.split(' '),
);

/** Numbers named after a standard in a basis: `7.1 and 7.2`, `3.1, 4.4`. */
const numbersAfter = (basis: string, standard: RegExp): readonly string[] =>
  [...basis.matchAll(standard)].flatMap((match) =>
    (
      basis
        .slice(match.index + match[0].length)
        .match(/^[:\s]*((?:\d+(?:\.\d+)*(?:\([a-z]\))?(?:, | and | to )?)+)/)?.[1] ?? ''
    )
      .split(/, | and | to /)
      .map((number) => number.replace(/\([a-z]\)/g, '').trim())
      .filter(Boolean),
  );

describe.each(checks.map((check) => [check.code, check] as const))('%s', (_, { level, basis }) => {
  test('names clauses that the risk and usability standards have', () => {
    for (const number of numbersAfter(basis, /ISO 14971:2019/g)) expect(riskManagement).toContain(number);
    for (const number of numbersAfter(basis, /IEC 62366-1(?::2015)?(?:\+A1:2020)?/g))
      expect(usability).toContain(number);
  });

  test('does not stop a file by what is known from memory only', () => {
    const parts = basis.split(';').map((part) => part.trim());
    if (level === 'error') expect(parts.some((part) => !part.includes('from memory'))).toBe(true);
  });
});

test('clauses of Annex I that checks name are in the clause table', () => {
  const table = shippedClauseTables.find((each) => each.key === 'eu-mdr-annex-1');
  const known = new Set(table?.rows.map((row) => row.clause));
  expect(known.size).toBeGreaterThan(200);
  const named = checks.flatMap(({ code, basis }) =>
    [...basis.matchAll(/Annex I (\d+(?:\.\d+)*(?:\([a-z]\))?)/g)].map(
      (match) => [code, match[1] ?? ''] as const,
    ),
  );
  expect(named.length).toBeGreaterThan(5);
  expect(named.filter(([, clause]) => !known.has(clause))).toEqual([]);
});

test('enough clauses are named for this to mean something', () => {
  expect(checks.flatMap(({ basis }) => numbersAfter(basis, /ISO 14971:2019/g)).length).toBeGreaterThan(20);
});

import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings/finding.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { replace } from './planted-faults.ts';
import { seal, type Tree } from './seal.ts';

/** One fault planted in the clean file, with the one code that it must produce, of any level. */
interface LabelFault {
  readonly planted: string;
  readonly code: string;
  readonly record: string;
  readonly says: string;
  readonly plant: (tree: Tree) => void;
  /** Codes of other findings that follow from the same cause. */
  readonly also?: readonly string[];
}

const label = 'design-outputs/DO-08.md';

const faults: readonly LabelFault[] = [
  {
    planted: 'the lot in the UDI is that of another batch',
    code: 'udi-differs-from-label',
    record: 'DO-08',
    says: 'the lot L003, and L004 is printed',
    plant: (tree) => replace(tree, label, /^(udi: .*)L004$/m, '$1L003'),
  },
  {
    planted: 'the UDI of the carton stands on the unit',
    code: 'udi-differs-from-label',
    record: 'DO-08',
    says: 'the level "unit" has 09520123456788',
    plant: (tree) => replace(tree, label, 'udi: (01)09520123456788', 'udi: (01)19520123456785'),
  },
  {
    planted: 'a blank has got into the lot of the UDI',
    code: 'udi-structure-wrong',
    record: 'DO-08',
    says: 'a lot (10) with a blank',
    plant: (tree) => {
      replace(tree, label, /^(udi: .*)L004$/m, '$1L 004');
      replace(tree, label, '  lot: L004', '  lot: L 004');
      replace(tree, label, 'beside: L004', 'beside: L 004');
    },
  },
  {
    planted: 'the use-by date of the label is a year too late, everywhere on it',
    code: 'use-by-differs-from-shelf-life',
    record: 'DO-08',
    says: '364 d after the end of 3 years',
    plant: (tree) => {
      replace(tree, label, /2029-05-31/g, '2030-05-31');
      replace(tree, label, /\(17\)290531/g, '(17)300531');
    },
  },
  {
    planted: 'the temperature symbol allows 5 °C',
    code: 'label-symbol-value-differs',
    record: 'DO-08',
    says: 'the wording "storage" has 10 to 30',
    plant: (tree) => replace(tree, label, 'beside: 10 to 30 °C', 'beside: 5 to 30 °C'),
  },
  {
    planted: 'the symbol of single use is left out',
    code: 'label-symbol-without-particular',
    record: 'DO-08',
    says: '23.2(q)',
    plant: (tree) => replace(tree, label, / {2}- \{ symbol: 5\.7\.7.*\n/, ''),
  },
  {
    planted: 'the label also carries the symbol for not sterile',
    code: 'label-symbols-contradict',
    record: 'DO-08',
    says: 'a device is sterile or it is not',
    plant: (tree) => replace(tree, label, 'symbols:\n', 'symbols:\n  - { symbol: 5.2.7, answers: [] }\n'),
    also: [],
  },
  {
    planted: 'a symbol has a number that the standard does not have',
    code: 'label-symbol-unknown',
    record: 'DO-08',
    says: '5.2.19',
    plant: (tree) => replace(tree, label, 'symbol: 5.2.11', 'symbol: 5.2.19'),
  },
  {
    planted: 'a market with another language is added',
    code: 'market-language-missing',
    record: 'DO-08',
    says: 'nl for Netherlands',
    plant: (tree) =>
      replace(tree, 'plinth.yaml', 'markets:\n', 'markets:\n  - { market: Netherlands, languages: [nl] }\n'),
  },
  {
    planted: 'a digit of the Basic UDI-DI is exchanged',
    code: 'gs1-check-digit-wrong',
    record: '',
    says: 'has the check characters VF, computed',
    plant: (tree) => replace(tree, 'plinth.yaml', '9520123DGA1VF', '9520132DGA1VF'),
  },
];

const clean: Tree = new Map(readTree('content'));
const keyOf = ({ code, message }: Finding): string => `${code}: ${message}`;
const stands = new Set(analyse(inputsFrom(clean)).findings.map(keyOf));

test('the demonstration file has no finding', () => {
  expect([...stands]).toEqual([]);
});

describe('a fault in labels, biology, conditioning or claims gives its finding and no other', () => {
  test.each(faults.map((fault) => [fault.planted, fault] as const))('%s', (_, fault) => {
    const planted: Tree = new Map(clean);
    fault.plant(planted);
    const found = analyse(inputsFrom(seal(planted))).findings;
    expect([...new Set(found.map(({ code }) => code))].sort(), found.map(keyOf).join('\n')).toEqual(
      [fault.code, ...(fault.also ?? [])].sort(),
    );
    const meant = found.filter(
      ({ code, records }) => code === fault.code && (records[0] ?? '') === fault.record,
    );
    expect(meant.map(keyOf).join('\n')).toContain(fault.says);
  });
});

import { expect, test } from 'vitest';
import { namedPeriod } from '../../src/records/named-period.ts';

// Quarters and halves of the calendar year: common practice, no source. Days of months: ISO 8601.
test.each([
  ['2027', '2027-01-01', '2027-12-31'],
  ['2027-H1', '2027-01-01', '2027-06-30'],
  ['2027h2', '2027-07-01', '2027-12-31'],
  ['2027-Q1', '2027-01-01', '2027-03-31'],
  ['2027Q4', '2027-10-01', '2027-12-31'],
  ['2028-02', '2028-02-01', '2028-02-29'],
  [' 2027-12 ', '2027-12-01', '2027-12-31'],
])('%s is %s to %s', (name, from, to) => {
  expect(namedPeriod(name)).toEqual({ from, to });
});

test.each(['2027-13', '2027-00', '2027-H3', '2027-Q5', '202701', 'M1', 'Lot 7', '2027-W05', ''])(
  '"%s" is no period of the calendar',
  (name) => {
    expect(namedPeriod(name)).toBeUndefined();
  },
);

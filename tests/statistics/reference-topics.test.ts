import { expect, test } from 'vitest';
import { topics } from './reference-values.ts';

/** Topics that a test file of this folder runs, and those whose functions are not part of this folder yet. */
const run = [
  'acceptance-oc',
  'acceptance-plan-design',
  'ageing-q10',
  'anderson-darling',
  'box-cox',
  'capability',
  'clopper-pearson',
  'gage-rr',
  'grubbs',
  'kappa',
  'nonparametric-sample-size',
  'shapiro-wilk',
  'strd-anova',
  'strd-univariate',
  'success-run',
  't-test',
  'tolerance-k-one-sided',
  'tolerance-k-two-sided',
  'tolerance-stackup',
  'tost',
  'usability-discovery',
  'weibull',
];
const waiting = ['iso2859-plan'];

test('every topic of the reference values is either run or named as waiting', () => {
  expect(topics.toSorted()).toEqual([...run, ...waiting].toSorted());
});

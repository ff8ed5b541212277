import { expect, test } from 'vitest';
import { topics } from './reference-values.ts';

/** Topics that a test file of this folder runs. */
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
  'iso2859-plan',
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

test('every topic of the reference values is run', () => {
  expect(topics.toSorted()).toEqual(run.toSorted());
});

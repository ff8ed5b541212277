import { successRunSampleSize } from '../../statistics/success-run.ts';
import { evaluateAttribute } from './attribute.ts';
import type { EvidenceMethod } from './method.ts';

export const successRunMethod: EvidenceMethod = {
  name: 'success-run',
  title: 'Success run',
  basis:
    'success-run theorem, n = ln(1 - confidence) / ln(reliability), rounded up: the exact binomial without a failure, Clopper and Pearson, Biometrika 26 (1934)',
  explain:
    'A plan without any failure: if n units in a row conform, the stated reliability is shown with the stated confidence. One failure and the run has failed.\n\nNeeds `confidence` and `reliability` under `sampling`.',
  needs: ['confidence', 'reliability'],
  statesReliability: true,
  smallestSize: (confidence, reliability) => successRunSampleSize({ confidence, reliability, failures: 0 }),
  evaluate: (input) => evaluateAttribute({ ...input, sampling: { ...input.sampling, accept: 0 } }),
};

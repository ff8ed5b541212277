import { allUnitsMethod } from './all-units.ts';
import { attributeMethod } from './attribute.ts';
import { capabilityMethod } from './capability.ts';
import { equivalenceMethod } from './equivalence.ts';
import { inspectionChecklistMethod } from './inspection-checklist.ts';
import { laboratoryMaximumMethod } from './laboratory-maximum.ts';
import { lognormalToleranceBoundMethod } from './lognormal-tolerance-bound.ts';
import { meanMethod } from './mean.ts';
import type { EvidenceMethod } from './method.ts';
import { nonparametricToleranceIntervalMethod } from './nonparametric-tolerance-interval.ts';
import { normalToleranceIntervalMethod } from './normal-tolerance-interval.ts';
import { successRunMethod } from './success-run.ts';
import { transformedNormalToleranceIntervalMethod } from './transformed-normal-tolerance-interval.ts';
import { weibullLowerBoundMethod } from './weibull-lower-bound.ts';

/** Methods by which protocols evaluate raw data. To add one: its file, its test, a line here. */
export const evidenceMethods: readonly EvidenceMethod[] = [
  normalToleranceIntervalMethod,
  lognormalToleranceBoundMethod,
  transformedNormalToleranceIntervalMethod,
  weibullLowerBoundMethod,
  nonparametricToleranceIntervalMethod,
  meanMethod,
  equivalenceMethod,
  capabilityMethod,
  attributeMethod,
  successRunMethod,
  inspectionChecklistMethod,
  laboratoryMaximumMethod,
  allUnitsMethod,
];

export const evidenceMethod = (name: string): EvidenceMethod | undefined =>
  evidenceMethods.find((method) => method.name === name);

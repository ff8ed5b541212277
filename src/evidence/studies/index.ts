import { attributeAgreementStudy } from './attribute-agreement-study.ts';
import { averageAndRangeGaugeStudy } from './average-and-range-gauge-study.ts';
import { biasAndLinearityStudy } from './bias-and-linearity-study.ts';
import { crossedGaugeStudy } from './crossed-gauge-study.ts';
import { nestedGaugeStudy } from './nested-gauge-study.ts';
import type { Study } from './study.ts';

/** Studies of test methods. To add one: its file, its test, a line here. */
export const studies: readonly Study[] = [
  crossedGaugeStudy,
  averageAndRangeGaugeStudy,
  nestedGaugeStudy,
  biasAndLinearityStudy,
  attributeAgreementStudy,
];

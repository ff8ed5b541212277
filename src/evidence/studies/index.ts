import { attributeAgreementStudy } from './attribute-agreement-study.ts';
import { crossedGaugeStudy } from './crossed-gauge-study.ts';
import type { Study } from './study.ts';

/** Studies of test methods. To add one: its file, its test, a line here. */
export const studies: readonly Study[] = [crossedGaugeStudy, attributeAgreementStudy];

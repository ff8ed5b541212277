import { poissonRate } from '../statistics/poisson-rate.ts';
import type { RiskExperience } from './field-experience.ts';

/** The rate of each period with its exact bounds, for a figure. */
export const periodRates = ({ periods }: RiskExperience, confidence: number) =>
  periods.map(({ name, events, uses }) => ({ name, ...poissonRate({ events, exposure: uses, confidence }) }));

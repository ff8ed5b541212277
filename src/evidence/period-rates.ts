import { poissonRate } from '../statistics/poisson-rate.ts';
import type { FieldSeries } from './field-experience.ts';

/** The rate of each period with its exact bounds, for a figure. */
export const periodRates = ({ periods, confidence }: FieldSeries) =>
  periods.map(({ name, events, uses }) => ({ name, ...poissonRate({ events, exposure: uses, confidence }) }));

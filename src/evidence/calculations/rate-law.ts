import type { Assumption } from '../result.ts';

/** Degrees by which ageing keeps below the lowest transition of the materials (ASTM F1980, from memory). */
const margin = 10;

/** What the ageing factor does not know, stated in every result that uses it. */
export const oneRateLaw: Assumption = {
  name: 'one rate law',
  outcome: 'not tested',
  detail:
    'Q10 describes chemical ageing only; humidity, glass transition and softening are judged by people, and real-time ageing must confirm the claim',
};

/** Whether the warmest temperature keeps away from the lowest transition of the materials; nothing where none is stated. */
export const belowTransition = (highest: number, transition: number | undefined): readonly Assumption[] => {
  if (transition === undefined) return [];
  const met = highest <= transition - margin;
  return [
    {
      name: 'below every transition of the materials',
      outcome: met ? 'met' : 'not met',
      detail: `${highest} °C is ${met ? 'at least' : 'less than'} ${margin} °C below the lowest transition at ${transition} °C`,
    },
  ];
};

/** How dry and how damp it was, against what was allowed; a caution where nothing is known or allowed. */
export const humidityAssumption = (
  found: { readonly lowest: number; readonly highest: number } | undefined,
  allowed: { readonly lower?: number; readonly upper?: number },
): Assumption => {
  const name = 'humidity';
  const limited = allowed.lower !== undefined || allowed.upper !== undefined;
  if (!found)
    return {
      name,
      outcome: limited ? 'not met' : 'not tested',
      detail: limited
        ? 'limits are given, but no humidity was recorded'
        : 'no humidity was recorded; it is not part of the factor, and can age some materials faster or slower than warmth does',
    };
  const range = `${found.lowest} to ${found.highest} % relative humidity`;
  if (!limited)
    return {
      name,
      outcome: 'not tested',
      detail: `${range}; humidity is not part of the factor, and people judge whether the materials mind it`,
    };
  const met = found.lowest >= (allowed.lower ?? 0) && found.highest <= (allowed.upper ?? 100);
  return {
    name,
    outcome: met ? 'met' : 'not met',
    detail: `${range}, allowed ${allowed.lower ?? 0} to ${allowed.upper ?? 100} %`,
  };
};

import type { RiskControlFields } from '../records/fields.ts';

/** Kinds of measure in the order of priority, first choice first (Regulation (EU) 2017/745 Annex I 4). */
export const controlOptionOrder: readonly RiskControlFields['option'][] = [
  'inherently safe design',
  'protective measure',
  'information for safety',
];

import { acceleratedAgeing } from './accelerated-ageing.ts';
import type { Calculation } from './calculation.ts';
import { toleranceStackUp } from './tolerance-stack-up.ts';

/** Calculations of analysis records. To add one: its file, its test, a line here. */
export const calculations: readonly Calculation[] = [acceleratedAgeing, toleranceStackUp];

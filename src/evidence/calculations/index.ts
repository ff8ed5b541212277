import { acceleratedAgeing } from './accelerated-ageing.ts';
import type { Calculation } from './calculation.ts';
import { endotoxin } from './endotoxin.ts';
import { formula } from './formula.ts';
import { residues } from './residues.ts';
import { sterilisationDose } from './sterilisation-dose.ts';
import { temperatureExcursion } from './temperature-excursion.ts';
import { toleranceStackUp } from './tolerance-stack-up.ts';

/** Calculations of analysis records. To add one: its file, its test, a line here. */
export const calculations: readonly Calculation[] = [
  acceleratedAgeing,
  toleranceStackUp,
  formula,
  temperatureExcursion,
  sterilisationDose,
  residues,
  endotoxin,
];

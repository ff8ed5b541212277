import { applicabilityWithoutReason } from './applicability-without-reason.ts';
import { approvalLapsed } from './approval-lapsed.ts';
import { approvalMissing } from './approval-missing.ts';
import type { Check } from './check.ts';
import { disclosedRiskMissing } from './disclosed-risk-missing.ts';
import { gs1CheckDigitWrong } from './gs1-check-digit-wrong.ts';
import { labelParticularMissing } from './label-particular-missing.ts';
import { needWithoutInput } from './need-without-input.ts';
import { participantsBelowPlan } from './participants-below-plan.ts';
import { phraseDiffers } from './phrase-differs.ts';
import { residualRiskNotAccepted } from './residual-risk-not-accepted.ts';
import { riskControlNotVerified } from './risk-control-not-verified.ts';
import { standardEditionDiffers } from './standard-edition-differs.ts';
import { unknownLinkTarget } from './unknown-link-target.ts';

/** All checks, in alphabetical order of their codes. To add one: its file, its test, a line here. */
export const checks: readonly Check[] = [
  applicabilityWithoutReason,
  approvalLapsed,
  approvalMissing,
  disclosedRiskMissing,
  gs1CheckDigitWrong,
  labelParticularMissing,
  needWithoutInput,
  participantsBelowPlan,
  phraseDiffers,
  residualRiskNotAccepted,
  riskControlNotVerified,
  standardEditionDiffers,
  unknownLinkTarget,
];

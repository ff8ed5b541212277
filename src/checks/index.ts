import { acceptanceLooserThanInput } from './acceptance-looser-than-input.ts';
import { acceptanceUnitNotConvertible } from './acceptance-unit-not-convertible.ts';
import { acceptanceUnknownCharacteristic } from './acceptance-unknown-characteristic.ts';
import { applicabilityWithoutReason } from './applicability-without-reason.ts';
import { approvalLapsed } from './approval-lapsed.ts';
import { approvalMissing } from './approval-missing.ts';
import type { Check } from './check.ts';
import { contradictingLimits } from './contradicting-limits.ts';
import { deviationOpen } from './deviation-open.ts';
import { disclosedRiskMissing } from './disclosed-risk-missing.ts';
import { draftUnderApproved } from './draft-under-approved.ts';
import { equipmentOutOfCalibration } from './equipment-out-of-calibration.ts';
import { failedVerificationUnresolved } from './failed-verification-unresolved.ts';
import { gs1CheckDigitWrong } from './gs1-check-digit-wrong.ts';
import { inputWithoutOutput } from './input-without-output.ts';
import { inputWithoutSource } from './input-without-source.ts';
import { inputWithoutVerification } from './input-without-verification.ts';
import { labelParticularMissing } from './label-particular-missing.ts';
import { limitUntested } from './limit-untested.ts';
import { linkCycle } from './link-cycle.ts';
import { missingTestMethod } from './missing-test-method.ts';
import { needWithoutInput } from './need-without-input.ts';
import { needWithoutValidation } from './need-without-validation.ts';
import { outputWithoutInput } from './output-without-input.ts';
import { participantsBelowPlan } from './participants-below-plan.ts';
import { phraseDiffers } from './phrase-differs.ts';
import { planCannotPass } from './plan-cannot-pass.ts';
import { protocolApprovedAfterExecution } from './protocol-approved-after-execution.ts';
import { protocolWithoutRecord } from './protocol-without-record.ts';
import { rawDataChanged } from './raw-data-changed.ts';
import { recordWithoutProtocol } from './record-without-protocol.ts';
import { residualRiskNotAccepted } from './residual-risk-not-accepted.ts';
import { retestWithoutReason } from './retest-without-reason.ts';
import { retiredRecordLinked } from './retired-record-linked.ts';
import { riskControlNotVerified } from './risk-control-not-verified.ts';
import { sampleLargerThanPlan } from './sample-larger-than-plan.ts';
import { sampleSizeUnderPlan } from './sample-size-under-plan.ts';
import { samplingBelowPolicy } from './sampling-below-policy.ts';
import { singleLot } from './single-lot.ts';
import { standardEditionDiffers } from './standard-edition-differs.ts';
import { statedResultDiffers } from './stated-result-differs.ts';
import { testMethodStudyFailed } from './test-method-study-failed.ts';
import { testedRevisionNotReleased } from './tested-revision-not-released.ts';
import { undocumentedExclusion } from './undocumented-exclusion.ts';
import { unknownIdInProse } from './unknown-id-in-prose.ts';
import { unknownLinkTarget } from './unknown-link-target.ts';
import { vagueWording } from './vague-wording.ts';
import { verdictUndecided } from './verdict-undecided.ts';
import { wrongLinkTargetType } from './wrong-link-target-type.ts';

/** All checks, in alphabetical order of their codes. To add one: its file, its test, a line here. */
export const checks: readonly Check[] = [
  acceptanceLooserThanInput,
  acceptanceUnitNotConvertible,
  acceptanceUnknownCharacteristic,
  applicabilityWithoutReason,
  approvalLapsed,
  approvalMissing,
  contradictingLimits,
  deviationOpen,
  disclosedRiskMissing,
  draftUnderApproved,
  equipmentOutOfCalibration,
  failedVerificationUnresolved,
  gs1CheckDigitWrong,
  inputWithoutOutput,
  inputWithoutSource,
  inputWithoutVerification,
  labelParticularMissing,
  limitUntested,
  linkCycle,
  missingTestMethod,
  needWithoutInput,
  needWithoutValidation,
  outputWithoutInput,
  participantsBelowPlan,
  phraseDiffers,
  planCannotPass,
  protocolApprovedAfterExecution,
  protocolWithoutRecord,
  rawDataChanged,
  recordWithoutProtocol,
  residualRiskNotAccepted,
  retestWithoutReason,
  retiredRecordLinked,
  riskControlNotVerified,
  sampleLargerThanPlan,
  sampleSizeUnderPlan,
  samplingBelowPolicy,
  singleLot,
  standardEditionDiffers,
  statedResultDiffers,
  testMethodStudyFailed,
  testedRevisionNotReleased,
  undocumentedExclusion,
  unknownIdInProse,
  unknownLinkTarget,
  vagueWording,
  verdictUndecided,
  wrongLinkTargetType,
];

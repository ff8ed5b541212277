import { acceleratedAgeingAlone } from './accelerated-ageing-alone.ts';
import { acceptanceLooserThanInput } from './acceptance-looser-than-input.ts';
import { acceptanceUnitNotConvertible } from './acceptance-unit-not-convertible.ts';
import { acceptanceUnknownCharacteristic } from './acceptance-unknown-characteristic.ts';
import { answerBeforeQuestion } from './answer-before-question.ts';
import { answerIncomplete } from './answer-incomplete.ts';
import { answerNotApproved } from './answer-not-approved.ts';
import { answerRevisionDiffers } from './answer-revision-differs.ts';
import { applicabilityNotConfirmed } from './applicability-not-confirmed.ts';
import { applicabilityWithoutReason } from './applicability-without-reason.ts';
import { applicableBelowNotApplicable } from './applicable-below-not-applicable.ts';
import { approvalBeforeEvent } from './approval-before-event.ts';
import { approvalBeforeReliedOn } from './approval-before-relied-on.ts';
import { approvalDateLater } from './approval-date-later.ts';
import { approvalEnteredLater } from './approval-entered-later.ts';
import { approvalLapsed } from './approval-lapsed.ts';
import { approvalMissing } from './approval-missing.ts';
import { approvalNotSigned } from './approval-not-signed.ts';
import { approvalSignedByAnother } from './approval-signed-by-another.ts';
import { approvalWithoutReliance } from './approval-without-reliance.ts';
import { approversNotIndependent } from './approvers-not-independent.ts';
import { authorityQuestionDatesReversed } from './authority-question-dates-reversed.ts';
import { authorityQuestionOverdue } from './authority-question-overdue.ts';
import { biologicalContactMissing } from './biological-contact-missing.ts';
import { biologicalEditionOlder } from './biological-edition-older.ts';
import { biologicalEndpointOpen } from './biological-endpoint-open.ts';
import { biologicalEndpointUnfounded } from './biological-endpoint-unfounded.ts';
import { biologicalSampleDiffers } from './biological-sample-differs.ts';
import { ceMarkingIncomplete } from './ce-marking-incomplete.ts';
import { changeRevisionDiffers } from './change-revision-differs.ts';
import { changeWithoutDecision } from './change-without-decision.ts';
import type { Check } from './check.ts';
import { claimBeyondEvidence } from './claim-beyond-evidence.ts';
import { claimEvidenceUnproven } from './claim-evidence-unproven.ts';
import { claimNumberUnfounded } from './claim-number-unfounded.ts';
import { claimPlacesDiffer } from './claim-places-differ.ts';
import { claimWithoutEvidence } from './claim-without-evidence.ts';
import { claimWordingDiffers } from './claim-wording-differs.ts';
import { classDiffers } from './class-differs.ts';
import { classificationMissing } from './classification-missing.ts';
import { classificationNotStrictest } from './classification-not-strictest.ts';
import { classificationRuleUnanswered } from './classification-rule-unanswered.ts';
import { classificationRuleUnknown } from './classification-rule-unknown.ts';
import { clauseAnsweredTwice } from './clause-answered-twice.ts';
import { clauseNotAnswered } from './clause-not-answered.ts';
import { clauseOutsideRecord } from './clause-outside-record.ts';
import { clauseTableOutdated } from './clause-table-outdated.ts';
import { clauseUnknown } from './clause-unknown.ts';
import { commentUnclosed } from './comment-unclosed.ts';
import { comparableDeviceUnexplained } from './comparable-device-unexplained.ts';
import { complaintsRising } from './complaints-rising.ts';
import { conditioningDrawTwice } from './conditioning-draw-twice.ts';
import { conditioningNodeUnknown } from './conditioning-node-unknown.ts';
import { conditioningNotSupplied } from './conditioning-not-supplied.ts';
import { conditioningOrderWrong } from './conditioning-order-wrong.ts';
import { conditioningUnitsExceeded } from './conditioning-units-exceeded.ts';
import { conformityRouteDiffers } from './conformity-route-differs.ts';
import { contactDurationDiffers } from './contact-duration-differs.ts';
import { contradictingLimits } from './contradicting-limits.ts';
import { controlNotApproved } from './control-not-approved.ts';
import { controlNotSeenInPlace } from './control-not-seen-in-place.ts';
import { controlRiskOpen } from './control-risk-open.ts';
import { controlShownByUnrelated } from './control-shown-by-unrelated.ts';
import { criteriaChangedAfterAnalysis } from './criteria-changed-after-analysis.ts';
import { criticalTaskNotInStudy } from './critical-task-not-in-study.ts';
import { criticalTaskWithoutScenario } from './critical-task-without-scenario.ts';
import { dateNotReal } from './date-not-real.ts';
import { decidedRepeatMissing } from './decided-repeat-missing.ts';
import { decisionBeforeEvidence } from './decision-before-evidence.ts';
import { decisionOnUnprovenControl } from './decision-on-unproven-control.ts';
import { declarationItemMissing } from './declaration-item-missing.ts';
import { declarationProcedureDiffers } from './declaration-procedure-differs.ts';
import { designPlanAfterGate } from './design-plan-after-gate.ts';
import { designPlanIncomplete } from './design-plan-incomplete.ts';
import { deviationOpen } from './deviation-open.ts';
import { deviceFeatureDenied } from './device-feature-denied.ts';
import { deviceNameDiffers } from './device-name-differs.ts';
import { disclosedRiskMissing } from './disclosed-risk-missing.ts';
import { disclosureNotDecided } from './disclosure-not-decided.ts';
import { disclosureNotInWording } from './disclosure-not-in-wording.ts';
import { documentForNoRecord } from './document-for-no-record.ts';
import { documentOlderThanQuoted } from './document-older-than-quoted.ts';
import { draftUnderApproved } from './draft-under-approved.ts';
import { equipmentFoundOutOfTolerance } from './equipment-found-out-of-tolerance.ts';
import { equipmentOutOfCalibration } from './equipment-out-of-calibration.ts';
import { estimateWithoutBasis } from './estimate-without-basis.ts';
import { experienceContradictsEstimate } from './experience-contradicts-estimate.ts';
import { failedVerificationUnresolved } from './failed-verification-unresolved.ts';
import { failureModeItemNotCovered } from './failure-mode-item-not-covered.ts';
import { failureModeWithoutEffect } from './failure-mode-without-effect.ts';
import { fieldDataNotAssessed } from './field-data-not-assessed.ts';
import { fieldDataNotContinuous } from './field-data-not-continuous.ts';
import { fieldDataUnusable } from './field-data-unusable.ts';
import { fieldSeriesSplit } from './field-series-split.ts';
import { formativeStudyAsValidation } from './formative-study-as-validation.ts';
import { furtherReductionUnargued } from './further-reduction-unargued.ts';
import { gapAnalysisIncomplete } from './gap-analysis-incomplete.ts';
import { gateConditionEmpty } from './gate-condition-empty.ts';
import { gateOverdue } from './gate-overdue.ts';
import { gatePassedUnmet } from './gate-passed-unmet.ts';
import { gateReviewMissing } from './gate-review-missing.ts';
import { gateUnknown } from './gate-unknown.ts';
import { gs1CheckDigitWrong } from './gs1-check-digit-wrong.ts';
import { gs1DayMissing } from './gs1-day-missing.ts';
import { harmListedAsHazard } from './harm-listed-as-hazard.ts';
import { harmNotInVocabulary } from './harm-not-in-vocabulary.ts';
import { harmSeverityDiffers } from './harm-severity-differs.ts';
import { hazardNotInVocabulary } from './hazard-not-in-vocabulary.ts';
import { independenceRuleIdle } from './independence-rule-idle.ts';
import { independentReviewerMissing } from './independent-reviewer-missing.ts';
import { informationControlNotInStudy } from './information-control-not-in-study.ts';
import { informationOnlyControl } from './information-only-control.ts';
import { inputWithoutOutput } from './input-without-output.ts';
import { inputWithoutSource } from './input-without-source.ts';
import { inputWithoutVerification } from './input-without-verification.ts';
import { intendedPurposeDiffers } from './intended-purpose-differs.ts';
import { labelParticularMissing } from './label-particular-missing.ts';
import { labelParticularTwice } from './label-particular-twice.ts';
import { labelSymbolUnknown } from './label-symbol-unknown.ts';
import { labelSymbolValueDiffers } from './label-symbol-value-differs.ts';
import { labelSymbolWithoutParticular } from './label-symbol-without-particular.ts';
import { labelSymbolsContradict } from './label-symbols-contradict.ts';
import { limitUntested } from './limit-untested.ts';
import { linkCycle } from './link-cycle.ts';
import { locationNotFound } from './location-not-found.ts';
import { makerDiffers } from './maker-differs.ts';
import { marketLanguageMissing } from './market-language-missing.ts';
import { misleadingWordUnexplained } from './misleading-word-unexplained.ts';
import { missingTestMethod } from './missing-test-method.ts';
import { needWithoutInput } from './need-without-input.ts';
import { needWithoutValidation } from './need-without-validation.ts';
import { newRisksUnanswered } from './new-risks-unanswered.ts';
import { observationDiffersFromData } from './observation-differs-from-data.ts';
import { observationWithoutJudgement } from './observation-without-judgement.ts';
import { optionWithoutReason } from './option-without-reason.ts';
import { outdatedCitation } from './outdated-citation.ts';
import { outdatedTerm } from './outdated-term.ts';
import { outputWithoutInput } from './output-without-input.ts';
import { overallDecisionRoleMissing } from './overall-decision-role-missing.ts';
import { overallResidualRiskMissing } from './overall-residual-risk-missing.ts';
import { participantsBelowPlan } from './participants-below-plan.ts';
import { particularDiffersFromLabel } from './particular-differs-from-label.ts';
import { particularSetAside } from './particular-set-aside.ts';
import { periodReversed } from './period-reversed.ts';
import { phraseDiffers } from './phrase-differs.ts';
import { phraseValueDiffers } from './phrase-value-differs.ts';
import { placeholderLeft } from './placeholder-left.ts';
import { planCannotPass } from './plan-cannot-pass.ts';
import { plannedAgeingTooShort } from './planned-ageing-too-short.ts';
import { protocolApprovedAfterExecution } from './protocol-approved-after-execution.ts';
import { protocolChangedAfterWork } from './protocol-changed-after-work.ts';
import { protocolWithoutRecord } from './protocol-without-record.ts';
import { rawDataChanged } from './raw-data-changed.ts';
import { realTimePullNotSupplied } from './real-time-pull-not-supplied.ts';
import { realTimePullOverdue } from './real-time-pull-overdue.ts';
import { recognitionNotDated } from './recognition-not-dated.ts';
import { recordWithoutProtocol } from './record-without-protocol.ts';
import { requirementEvidenceFailed } from './requirement-evidence-failed.ts';
import { requirementShownByPlans } from './requirement-shown-by-plans.ts';
import { requirementShownByTable } from './requirement-shown-by-table.ts';
import { requirementWithoutEvidence } from './requirement-without-evidence.ts';
import { requirementWithoutMethod } from './requirement-without-method.ts';
import { requirementWithoutSolution } from './requirement-without-solution.ts';
import { residualRiskNotAccepted } from './residual-risk-not-accepted.ts';
import { retestBeforeReason } from './retest-before-reason.ts';
import { retestWithoutReason } from './retest-without-reason.ts';
import { retiredRecordLinked } from './retired-record-linked.ts';
import { reviewActionOverdue } from './review-action-overdue.ts';
import { revisionNotInHistory } from './revision-not-in-history.ts';
import { riskControlNotImplemented } from './risk-control-not-implemented.ts';
import { riskControlNotVerified } from './risk-control-not-verified.ts';
import { riskControlUnproven } from './risk-control-unproven.ts';
import { riskCriteriaIncomplete } from './risk-criteria-incomplete.ts';
import { riskCriteriaTwice } from './risk-criteria-twice.ts';
import { riskNotInReview } from './risk-not-in-review.ts';
import { riskPlanApprovedAfterAnalysis } from './risk-plan-approved-after-analysis.ts';
import { riskPlanIncomplete } from './risk-plan-incomplete.ts';
import { riskPlanMissing } from './risk-plan-missing.ts';
import { riskReviewTooEarly } from './risk-review-too-early.ts';
import { riskRisesAfterControl } from './risk-rises-after-control.ts';
import { riskScoreUsed } from './risk-score-used.ts';
import { riskWithoutControl } from './risk-without-control.ts';
import { riskWithoutSurveillance } from './risk-without-surveillance.ts';
import { sampleLargerThanPlan } from './sample-larger-than-plan.ts';
import { sampleMakesNoStatement } from './sample-makes-no-statement.ts';
import { sampleSizeUnderPlan } from './sample-size-under-plan.ts';
import { samplingBelowPolicy } from './sampling-below-policy.ts';
import { scenarioNotSelectedWithoutReason } from './scenario-not-selected-without-reason.ts';
import { severityLoweredWithoutReason } from './severity-lowered-without-reason.ts';
import { shelfLifeBeyondEvidence } from './shelf-life-beyond-evidence.ts';
import { signaturesNotChecked } from './signatures-not-checked.ts';
import { singleLot } from './single-lot.ts';
import { situationProbabilityDiffers } from './situation-probability-differs.ts';
import { stageWithoutResponsibility } from './stage-without-responsibility.ts';
import { standardAppliedNowhere } from './standard-applied-nowhere.ts';
import { standardEditionDiffers } from './standard-edition-differs.ts';
import { standardExtentDiffers } from './standard-extent-differs.ts';
import { standardListedInTwoEditions } from './standard-listed-in-two-editions.ts';
import { standardNotListed } from './standard-not-listed.ts';
import { standardTransitionOver } from './standard-transition-over.ts';
import { statedResultDiffers } from './stated-result-differs.ts';
import { statementWithoutClaim } from './statement-without-claim.ts';
import { sterileSymbolDiffers } from './sterile-symbol-differs.ts';
import { studyGroupsBelowFifteen } from './study-groups-below-fifteen.ts';
import { submissionContentWrong } from './submission-content-wrong.ts';
import { submissionDocumentUnready } from './submission-document-unready.ts';
import { submissionRecordInDoubt } from './submission-record-in-doubt.ts';
import { submissionRowMissing } from './submission-row-missing.ts';
import { submissionRowWrong } from './submission-row-wrong.ts';
import { summativeBeforeFormative } from './summative-before-formative.ts';
import { supersededStandardUnanalysed } from './superseded-standard-unanalysed.ts';
import { surveillanceOverdue } from './surveillance-overdue.ts';
import { surveillancePlanMissing } from './surveillance-plan-missing.ts';
import { surveillanceThresholdReached } from './surveillance-threshold-reached.ts';
import { surveillanceThresholdsMissing } from './surveillance-thresholds-missing.ts';
import { testMethodStudyFailed } from './test-method-study-failed.ts';
import { testedRevisionNotReleased } from './tested-revision-not-released.ts';
import { tighteningWithoutEffect } from './tightening-without-effect.ts';
import { traceRuleNotMet } from './trace-rule-not-met.ts';
import { traceRuleUnusable } from './trace-rule-unusable.ts';
import { udiDiffersFromLabel } from './udi-differs-from-label.ts';
import { udiMissing } from './udi-missing.ts';
import { udiStructureWrong } from './udi-structure-wrong.ts';
import { undocumentedExclusion } from './undocumented-exclusion.ts';
import { unitLimitJudgedByMean } from './unit-limit-judged-by-mean.ts';
import { unknownIdInProse } from './unknown-id-in-prose.ts';
import { unknownLinkTarget } from './unknown-link-target.ts';
import { usRouteDiffers } from './us-route-differs.ts';
import { useByDiffersFromShelfLife } from './use-by-differs-from-shelf-life.ts';
import { useDurationDiffers } from './use-duration-differs.ts';
import { useErrorUnassessed } from './use-error-unassessed.ts';
import { useScenarioNotEvaluated } from './use-scenario-not-evaluated.ts';
import { useScenarioWithoutRisk } from './use-scenario-without-risk.ts';
import { useSpecificationMissing } from './use-specification-missing.ts';
import { userGroupUnknown } from './user-group-unknown.ts';
import { userMaterialIncomplete } from './user-material-incomplete.ts';
import { vagueWording } from './vague-wording.ts';
import { variantNotCovered } from './variant-not-covered.ts';
import { verdictUndecided } from './verdict-undecided.ts';
import { waiverExpired } from './waiver-expired.ts';
import { waiverTooLong } from './waiver-too-long.ts';
import { waiverUnknown } from './waiver-unknown.ts';
import { wrongLinkTargetType } from './wrong-link-target-type.ts';
import { zeroProbabilityUnexplained } from './zero-probability-unexplained.ts';

/** All checks, in alphabetical order of their codes. To add one: its file, its test, a line here. */
export const checks: readonly Check[] = [
  acceleratedAgeingAlone,
  acceptanceLooserThanInput,
  acceptanceUnitNotConvertible,
  acceptanceUnknownCharacteristic,
  answerBeforeQuestion,
  answerIncomplete,
  answerNotApproved,
  answerRevisionDiffers,
  applicabilityNotConfirmed,
  applicabilityWithoutReason,
  applicableBelowNotApplicable,
  approvalBeforeEvent,
  approvalBeforeReliedOn,
  approvalDateLater,
  approvalEnteredLater,
  approvalLapsed,
  approvalMissing,
  approvalNotSigned,
  approvalSignedByAnother,
  approvalWithoutReliance,
  approversNotIndependent,
  authorityQuestionDatesReversed,
  authorityQuestionOverdue,
  biologicalContactMissing,
  biologicalEditionOlder,
  biologicalEndpointOpen,
  biologicalEndpointUnfounded,
  biologicalSampleDiffers,
  ceMarkingIncomplete,
  changeRevisionDiffers,
  changeWithoutDecision,
  claimBeyondEvidence,
  claimEvidenceUnproven,
  claimNumberUnfounded,
  claimPlacesDiffer,
  claimWithoutEvidence,
  claimWordingDiffers,
  classDiffers,
  classificationMissing,
  classificationNotStrictest,
  classificationRuleUnanswered,
  classificationRuleUnknown,
  clauseAnsweredTwice,
  clauseNotAnswered,
  clauseOutsideRecord,
  clauseTableOutdated,
  clauseUnknown,
  commentUnclosed,
  comparableDeviceUnexplained,
  complaintsRising,
  conditioningDrawTwice,
  conditioningNodeUnknown,
  conditioningNotSupplied,
  conditioningOrderWrong,
  conditioningUnitsExceeded,
  conformityRouteDiffers,
  contactDurationDiffers,
  contradictingLimits,
  controlNotApproved,
  controlNotSeenInPlace,
  controlRiskOpen,
  controlShownByUnrelated,
  criteriaChangedAfterAnalysis,
  criticalTaskNotInStudy,
  criticalTaskWithoutScenario,
  dateNotReal,
  decidedRepeatMissing,
  decisionBeforeEvidence,
  decisionOnUnprovenControl,
  declarationItemMissing,
  declarationProcedureDiffers,
  designPlanAfterGate,
  designPlanIncomplete,
  deviationOpen,
  deviceFeatureDenied,
  deviceNameDiffers,
  disclosedRiskMissing,
  disclosureNotDecided,
  disclosureNotInWording,
  documentForNoRecord,
  documentOlderThanQuoted,
  draftUnderApproved,
  equipmentFoundOutOfTolerance,
  equipmentOutOfCalibration,
  estimateWithoutBasis,
  experienceContradictsEstimate,
  failedVerificationUnresolved,
  failureModeItemNotCovered,
  failureModeWithoutEffect,
  fieldDataNotAssessed,
  fieldDataNotContinuous,
  fieldDataUnusable,
  fieldSeriesSplit,
  formativeStudyAsValidation,
  furtherReductionUnargued,
  gapAnalysisIncomplete,
  gateConditionEmpty,
  gateOverdue,
  gatePassedUnmet,
  gateReviewMissing,
  gateUnknown,
  gs1CheckDigitWrong,
  gs1DayMissing,
  harmListedAsHazard,
  harmNotInVocabulary,
  harmSeverityDiffers,
  hazardNotInVocabulary,
  independenceRuleIdle,
  independentReviewerMissing,
  informationControlNotInStudy,
  informationOnlyControl,
  inputWithoutOutput,
  inputWithoutSource,
  inputWithoutVerification,
  intendedPurposeDiffers,
  labelParticularMissing,
  labelParticularTwice,
  labelSymbolUnknown,
  labelSymbolValueDiffers,
  labelSymbolWithoutParticular,
  labelSymbolsContradict,
  limitUntested,
  linkCycle,
  locationNotFound,
  makerDiffers,
  marketLanguageMissing,
  misleadingWordUnexplained,
  missingTestMethod,
  needWithoutInput,
  needWithoutValidation,
  newRisksUnanswered,
  observationDiffersFromData,
  observationWithoutJudgement,
  optionWithoutReason,
  outdatedCitation,
  outdatedTerm,
  outputWithoutInput,
  overallDecisionRoleMissing,
  overallResidualRiskMissing,
  participantsBelowPlan,
  particularDiffersFromLabel,
  particularSetAside,
  periodReversed,
  phraseDiffers,
  phraseValueDiffers,
  placeholderLeft,
  planCannotPass,
  plannedAgeingTooShort,
  protocolApprovedAfterExecution,
  protocolChangedAfterWork,
  protocolWithoutRecord,
  rawDataChanged,
  realTimePullNotSupplied,
  realTimePullOverdue,
  recognitionNotDated,
  recordWithoutProtocol,
  requirementEvidenceFailed,
  requirementShownByPlans,
  requirementShownByTable,
  requirementWithoutEvidence,
  requirementWithoutMethod,
  requirementWithoutSolution,
  residualRiskNotAccepted,
  retestBeforeReason,
  retestWithoutReason,
  retiredRecordLinked,
  reviewActionOverdue,
  revisionNotInHistory,
  riskControlNotImplemented,
  riskControlNotVerified,
  riskControlUnproven,
  riskCriteriaIncomplete,
  riskCriteriaTwice,
  riskNotInReview,
  riskPlanApprovedAfterAnalysis,
  riskPlanIncomplete,
  riskPlanMissing,
  riskReviewTooEarly,
  riskRisesAfterControl,
  riskScoreUsed,
  riskWithoutControl,
  riskWithoutSurveillance,
  sampleLargerThanPlan,
  sampleMakesNoStatement,
  sampleSizeUnderPlan,
  samplingBelowPolicy,
  scenarioNotSelectedWithoutReason,
  severityLoweredWithoutReason,
  shelfLifeBeyondEvidence,
  signaturesNotChecked,
  singleLot,
  situationProbabilityDiffers,
  stageWithoutResponsibility,
  standardAppliedNowhere,
  standardEditionDiffers,
  standardExtentDiffers,
  standardListedInTwoEditions,
  standardNotListed,
  standardTransitionOver,
  statedResultDiffers,
  statementWithoutClaim,
  sterileSymbolDiffers,
  studyGroupsBelowFifteen,
  submissionContentWrong,
  submissionDocumentUnready,
  submissionRecordInDoubt,
  submissionRowMissing,
  submissionRowWrong,
  summativeBeforeFormative,
  supersededStandardUnanalysed,
  surveillanceOverdue,
  surveillancePlanMissing,
  surveillanceThresholdReached,
  surveillanceThresholdsMissing,
  testMethodStudyFailed,
  testedRevisionNotReleased,
  tighteningWithoutEffect,
  traceRuleNotMet,
  traceRuleUnusable,
  udiDiffersFromLabel,
  udiMissing,
  udiStructureWrong,
  undocumentedExclusion,
  unitLimitJudgedByMean,
  unknownIdInProse,
  unknownLinkTarget,
  usRouteDiffers,
  useByDiffersFromShelfLife,
  useDurationDiffers,
  useErrorUnassessed,
  useScenarioNotEvaluated,
  useScenarioWithoutRisk,
  useSpecificationMissing,
  userGroupUnknown,
  userMaterialIncomplete,
  vagueWording,
  variantNotCovered,
  verdictUndecided,
  waiverExpired,
  waiverTooLong,
  waiverUnknown,
  wrongLinkTargetType,
  zeroProbabilityUnexplained,
];

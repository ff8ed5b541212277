import { approvalsView } from './approvals-view.ts';
import { authorityQuestions } from './authority-questions.ts';
import { biologicalMatrix } from './biological-matrix.ts';
import { changeImpactView } from './change-impact-view.ts';
import { claimsView } from './claims-view.ts';
import { conditioningTreeView } from './conditioning-tree-view.ts';
import { controlOptions } from './control-options.ts';
import { declarationView } from './declaration-view.ts';
import { evidenceView } from './evidence-view.ts';
import { failureModesView } from './failure-modes-view.ts';
import { fieldExperienceView } from './field-experience-view.ts';
import { figureView } from './figure-view.ts';
import { fileIndex } from './file-index.ts';
import { findingsView } from './findings-view.ts';
import { gateReadiness } from './gate-readiness.ts';
import { gaugeStudyView } from './gauge-study-view.ts';
import { hazardTraceability } from './hazard-traceability.ts';
import { labelContent } from './label-content.ts';
import { legalRequirementsView } from './legal-requirements.ts';
import { limitsView } from './limits-view.ts';
import { materialsView } from './materials.ts';
import { recordsView } from './records-view.ts';
import { residualRisks } from './residual-risks.ts';
import { revisionHistoryView } from './revision-history-view.ts';
import { riskCriteria } from './risk-criteria.ts';
import { riskMapView } from './risk-map-view.ts';
import { riskTable } from './risk-table.ts';
import { signaturePageView } from './signature-page-view.ts';
import { standardsView } from './standards-view.ts';
import { standingView } from './standing-view.ts';
import { submissionIndex } from './submission-index.ts';
import { termsView } from './terms-view.ts';
import { traceMatrix } from './trace-matrix.ts';
import { usabilitySummary } from './usability-summary.ts';
import { validationMatrix } from './validation-matrix.ts';
import { verificationSummary } from './verification-summary.ts';
import type { View } from './view.ts';
import { waiversView } from './waivers-view.ts';

/** All views. To add one: its file, its schema in schemas/views, its test, a line here. */
export const views: readonly View[] = [
  biologicalMatrix,
  claimsView,
  conditioningTreeView,
  controlOptions,
  evidenceView,
  failureModesView,
  fieldExperienceView,
  figureView,
  fileIndex,
  findingsView,
  gaugeStudyView,
  hazardTraceability,
  labelContent,
  recordsView,
  residualRisks,
  revisionHistoryView,
  riskMapView,
  riskCriteria,
  riskTable,
  signaturePageView,
  standingView,
  traceMatrix,
  usabilitySummary,
  verificationSummary,
  waiversView,
  gateReadiness,
  submissionIndex,
  materialsView,
  declarationView,
  authorityQuestions,
  approvalsView,
  changeImpactView,
  limitsView,
  termsView,
  validationMatrix,
  legalRequirementsView,
  standardsView,
];

import { checks } from '../checks/index.ts';
import { markdownCodes } from '../document/markdown-findings.ts';
import { evidenceCodes } from '../evidence/evidence-findings.ts';
import type { Explanation } from '../findings/explanation.ts';
import { waiverCodes } from '../findings/waiver-idle.ts';
import { readingCodes } from '../records/reading-findings.ts';
import { reviewCodes } from '../returned/review-findings.ts';
import { documentCodes } from '../views/document-findings.ts';

/** Explanations of every finding code, wherever it is found. */
export const findingRules = (): ReadonlyMap<string, Explanation> =>
  new Map<string, Explanation>([
    ...Object.entries(readingCodes),
    ...Object.entries(evidenceCodes),
    ...Object.entries(markdownCodes),
    ...Object.entries(documentCodes),
    ...Object.entries(waiverCodes),
    ...Object.entries(reviewCodes),
    ...checks.map((check) => [check.code, check] as const),
  ]);

import { claims, verifierBehind } from '../evidence/claims.ts';
import { evidenceTypes } from '../evidence/evidence-types.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const claimWithoutEvidence = defineCheck({
  code: 'claim-without-evidence',
  level: 'error',
  title: 'A claim has no evidence with a verdict',
  basis:
    'Regulation (EU) 2017/745 Article 7 (no function or property that the device does not have) and Annex II 6.1',
  explain:
    'The claim names no record under `evidence`, or only records that carry no verdict, such as drawings and documents. Drafts are not judged.\n\nWhat a brochure says becomes what users expect, and the law forbids properties that the device does not have. Authorities ask for the proof of single sentences.\n\nName the verification, validation or analysis that shows it. If there is none, take the statement out, or show it first.',
  awaits: evidenceTypes,
  examines: 'claims that are no drafts',
  subjects: ({ graph }) => claims(graph).filter(({ status }) => status !== 'draft'),
  judge: (claim, { graph }) => {
    const { evidence = [] } = claim.fields;
    if (evidence.some((id) => verifierBehind(id, graph) !== undefined)) return [];
    return [
      {
        place: placeOf(claim, evidence.length > 0 ? 'evidence' : 'wording'),
        message:
          evidence.length === 0
            ? `${claim.id} claims "${claim.fields.wording}" and names no evidence`
            : `${claim.id} claims "${claim.fields.wording}" and rests only on ${evidence.join(', ')}, which ${evidence.length === 1 ? 'carries' : 'carry'} no verdict`,
        hint: 'Name the verification, validation or analysis that shows it under "evidence", or take the statement out.',
        records: [claim.id, ...evidence],
      },
    ];
  },
});

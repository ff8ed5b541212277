import { claims } from '../evidence/claims.ts';
import { evidenceTypes } from '../evidence/evidence-types.ts';
import { unprovenEvidence } from '../evidence/unproven-evidence.ts';
import { placeOf } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

/** Where an error stands on the evidence itself already: something changed after its approval, or it states another result than its data. */
const isToldThere = (id: string, { graph, standing }: CheckContext): boolean => {
  const state = standing.get(id)?.state;
  return state === 'in doubt' || (state === 'failed' && graph.record(id)?.fields['result'] === 'pass');
};

export const claimEvidenceUnproven = defineCheck({
  code: 'claim-evidence-unproven',
  level: 'error',
  title: 'A claim rests on evidence that has not passed',
  basis: 'Regulation (EU) 2017/745 Article 7 and Annex II 6.1',
  explain:
    'The claim names a record under `evidence` that has failed, has not been carried out, is in doubt or is retired.\n\nThe statement stands on labels and in brochures that are in use already, so users believe what is not shown, or no longer. Where an error stands on the evidence itself, since something changed after its approval or its stated result is wrong, this finding is a warning: it tells which statements hang on it.\n\nResolve it at the evidence, name the repetition in place of what failed, or take the statement out wherever it stands: `stated_in` of the claim says where.',
  awaits: [...evidenceTypes, 'design-output'],
  examines: 'pieces of evidence of claims',
  subjects: ({ graph }) =>
    claims(graph).flatMap((claim) =>
      (claim.fields.evidence ?? []).map((id, index) => ({ claim, id, index })),
    ),
  judge: ({ claim, id, index }, context) =>
    unprovenEvidence([id], context).map(({ says }) => ({
      ...(isToldThere(id, context) ? { level: 'warning' as const } : {}),
      place: placeOf(claim, 'evidence', index),
      message: `${claim.id} claims "${claim.fields.wording}" and rests on evidence that shows nothing for now: ${says}`,
      hint: `Resolve it there, name other evidence, or take the statement out of ${(claim.fields.stated_in ?? ['what states it']).join(', ')}.`,
      records: [claim.id, id],
      related: [context.graph.record(id)]
        .filter((record) => record !== undefined)
        .map((record) => ({ place: placeOf(record), message: `${record.id} ${record.title}` })),
    })),
});

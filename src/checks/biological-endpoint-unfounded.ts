import { evaluations } from '../evidence/biological-contact.ts';
import { evidenceTypes } from '../evidence/evidence-types.ts';
import { unprovenEvidence } from '../evidence/unproven-evidence.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const biologicalEndpointUnfounded = defineCheck({
  code: 'biological-endpoint-unfounded',
  level: 'error',
  title: 'An endpoint is addressed by something that does not bear it',
  basis:
    'Regulation (EU) 2017/745 Annex I 10.1 and Annex II 6.1(b); ISO 10993-1 (a named evaluator concludes on each endpoint, from memory)',
  explain:
    'An endpoint is said to be addressed by a test or by data, and no record is named as evidence, or the one that is named has failed, is in doubt or is retired. Or it is addressed by a rationale or by existing data, and no reason is given. Or the evaluator has not concluded on it.\n\nA line in the matrix that says "test" without a result looks complete and is empty.\n\nName the record with the result, give the reason, and have the evaluator state the conclusion.',
  awaits: evidenceTypes,
  examines: 'addressed endpoints',
  subjects: ({ graph }) =>
    evaluations(graph).flatMap((evaluation) =>
      evaluation.fields.endpoints.map((endpoint, index) => ({ evaluation, endpoint, index })),
    ),
  judge: ({ evaluation, endpoint, index }, context): readonly Draft[] => {
    const at = (field: string) => placeOf(evaluation, 'endpoints', index, field);
    const { addressed_by: by, evidence = [], reason, conclusion } = endpoint;
    const fault = (field: string, message: string, hint: string): Draft => ({
      place: at(field),
      message: `${evaluation.id}: "${endpoint.endpoint}" ${message}`,
      hint,
      records: [evaluation.id, ...evidence],
    });
    const weak = unprovenEvidence(evidence, context);
    return [
      ...(by !== 'rationale' && evidence.length === 0
        ? [
            fault(
              'addressed_by',
              `is addressed by ${by === 'test' ? 'a test' : 'data'}, and no evidence is named`,
              'Name the record that holds the result under "evidence".',
            ),
          ]
        : []),
      ...weak.map(({ says }) =>
        fault(
          'evidence',
          `rests on evidence that shows nothing for now: ${says}`,
          'Resolve it there, or name other evidence.',
        ),
      ),
      ...(by !== 'test' && reason === undefined
        ? [
            fault(
              'addressed_by',
              `is addressed by ${by === 'data' ? 'existing data' : 'a rationale'}, and no reason is given`,
              'Give the reason in short under "reason".',
            ),
          ]
        : []),
      ...(conclusion === undefined && evaluation.status === 'approved'
        ? [
            fault(
              'endpoint',
              'has no conclusion of the evaluator',
              'Write under "conclusion" what the evaluator concludes.',
            ),
          ]
        : []),
    ];
  },
});

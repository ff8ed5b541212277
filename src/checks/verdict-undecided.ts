import type { EvidenceResult } from '../evidence/result.ts';
import { countedSize, smallestPassingSize } from '../evidence/sample-plan.ts';
import { statedResult } from '../evidence/stated-result.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Too few units for the plan, or a plan too small for its method: both have checks of their own. */
const isTooSmall = (graph: TraceGraph, found: EvidenceResult): boolean => {
  const protocol =
    graph.recordOf('verification-protocol', found.protocol ?? '') ??
    graph.recordOf('validation-protocol', found.protocol ?? '');
  const smallest = protocol
    ? smallestPassingSize(protocol.fields.sampling, protocol.fields.acceptance)
    : undefined;
  const counted = countedSize(found);
  const planned = protocol?.fields.sampling.size;
  if (smallest === undefined || counted === undefined || planned === undefined) return false;
  return (
    counted < smallest &&
    (planned < smallest || (counted < planned && protocol?.type === 'verification-protocol'))
  );
};

export const verdictUndecided = defineCheck({
  code: 'verdict-undecided',
  level: 'error',
  title: 'The data of a record do not decide',
  basis: 'ISO 13485:2016 7.3.6 and 7.3.7 (statistical techniques)',
  explain:
    'The raw data can be read, but the method of the protocol cannot draw a verdict from them: the readings do not look normal where a normal method was planned, readings lie beyond the range of the instrument, or there are none. Neither pass nor fail can be stated, and what the record should show stands in doubt.\n\nThe message gives the reason, the hint a way out. Changing the method after the data are seen needs a deviation with its reasons; often a new plan is the honest way.',
  examines: 'records with raw data or a calculation',
  subjects: ({ graph, evidence }) =>
    [...evidence.values()].flatMap((found) => {
      const stated = statedResult(graph, found);
      // A study of a test method that does not decide is reported as a study that has not passed.
      return stated && stated.record.type !== 'test-method' ? [{ found, ...stated }] : [];
    }),
  judge: ({ found, record, path }, { graph }) => {
    if (found.verdict !== 'undecided' || found.findings.length > 0 || isTooSmall(graph, found)) return [];
    const remedies = found.characteristics.flatMap((each) =>
      each.verdict === 'undecided' && each.remedy ? [each.remedy] : [],
    );
    return [
      {
        place: placeOf(record, ...path),
        message: `${record.id} does not decide: ${found.reason}`,
        hint: [...new Set(remedies)].join(' ') || 'Complete the data or the plan.',
        records: found.protocol ? [record.id, found.protocol] : [record.id],
        data: { method: found.method },
      },
    ];
  },
});

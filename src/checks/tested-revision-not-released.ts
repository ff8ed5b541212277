import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Formative studies look at earlier states of the design; nothing of the released one rests on them. */
const isFormative = ({ type, fields }: TechnicalRecord, graph: TraceGraph): boolean =>
  type === 'validation-record' &&
  graph.recordOf('validation-protocol', String(fields['reports']))?.fields.study === 'formative';

export const testedRevisionNotReleased = defineCheck({
  code: 'tested-revision-not-released',
  level: 'error',
  title: 'The tested units were made to another revision than the released one',
  basis: 'ISO 13485:2016 7.3.6 and 7.3.9 (changes are verified as appropriate before they are implemented)',
  explain:
    'The record shows what units of one revision did, and the design output that is released has another. Between the two lies a change, and nobody has said whether the result survives it. "The report used revision A; the submitted design is C" is a common line in deficiency letters.\n\nRecord the design change that brought the new revision, and decide in it about the record: `still valid` with the reason, or `repeat`, and then add the new record with `retests`. Where a recorded change leads on from the tested revision, other checks see to its decisions. If the output or the record names the wrong revision, correct it. Formative studies are not judged: they look at earlier states of the design.',
  awaits: ['design-change', 'design-output'],
  examines: 'tested revisions of records',
  subjects: ({ graph }) =>
    [...graph.recordsOf('verification-record'), ...graph.recordsOf('validation-record')]
      .filter(
        (record) =>
          record.status !== 'retired' &&
          !isFormative(record, graph) &&
          graph.sources(record.id, 'retests', 'verification-record').length === 0,
      )
      .flatMap((record) =>
        (record.fields.tested ?? []).flatMap((tested, index) => {
          const output = graph.recordOf('design-output', tested.output);
          return output ? [{ record, tested, index, output }] : [];
        }),
      ),
  judge: ({ record, tested, index, output }, { graph }) => {
    const released = output.fields.revision;
    if (tested.revision === released) return [];
    const changes = graph
      .sources(output.id, 'changes', 'design-change')
      .flatMap(({ fields }) =>
        fields.changes
          .filter((change) => change.output === output.id)
          .map(({ from, to }) => ({ from, to, decisions: fields.decisions ?? [] })),
      );
    const latest = changes.filter(({ to }) => to === released);
    // The last change answers for the record where it decides about it. Where it starts from the tested revision, a
    // missing decision and a missing repetition are checks of their own, and so is a change to another revision.
    const isAnsweredFor = (latest.length > 0 ? latest : changes).some(
      ({ from, decisions }) =>
        from === tested.revision || decisions.some((decision) => decision.record === record.id),
    );
    if (isAnsweredFor) return [];
    return [
      {
        place: placeOf(record, 'tested', index, 'revision'),
        message: `${record.id} tested ${output.id} revision ${tested.revision}, released is revision ${released}`,
        hint: `Record the design change of ${output.id} and decide in it about ${record.id}: still valid, or repeat.`,
        records: [record.id, output.id],
        related: [{ place: placeOf(output, 'revision'), message: `${output.id} is released as ${released}` }],
        data: { tested: tested.revision, released },
      },
    ];
  },
});

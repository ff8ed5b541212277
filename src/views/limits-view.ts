import type { Row } from '../document/model.ts';
import { type Limit, sameCharacteristic } from '../evidence/limit-comparison.ts';
import { limitWords, writtenBounds } from '../evidence/limit-words.ts';
import { conditionsOf, hasNumber, showsIn } from '../evidence/limits-under-test.ts';
import { repetitionsOf } from '../graph/tested-revisions.ts';
import { type Verifier, verifiersOf } from '../graph/verifiers.ts';
import { cell, notice, onLines, orNothing, reference, spanning, text, verdictText } from './cells.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

/** Protocols and analyses that judge a limit in one of its conditions. */
const testsOf = (inputId: string, limit: Limit, { graph }: ViewContext): readonly Verifier[] =>
  verifiersOf(graph, inputId).filter(
    (verifier) =>
      (verifier.fields.acceptance ?? []).some((each) =>
        sameCharacteristic(each.characteristic, limit.characteristic),
      ) && conditionsOf(limit).some((wanted) => showsIn(verifier, limit, wanted)),
  );

/** What the records of a protocol, or an analysis, say of a characteristic; results that were repeated are left to their repetition. */
const resultsOf = (verifier: Verifier, limit: Limit, { graph, evidence }: ViewContext) => {
  const ids =
    verifier.type === 'analysis'
      ? [verifier.id]
      : [
          ...graph.sources(verifier.id, 'reports', 'verification-record'),
          ...graph.sources(verifier.id, 'reports', 'validation-record'),
        ]
          .filter((record) => record.status !== 'retired' && repetitionsOf(graph, record).length === 0)
          .map((record) => record.id);
  return ids.flatMap((id) =>
    (evidence.get(id)?.characteristics ?? [])
      .filter((each) => sameCharacteristic(each.limits.characteristic, limit.characteristic))
      .map((each) => ({ id, verdict: each.verdict })),
  );
};

const draw: View['draw'] = (body, context) => {
  const options = body as CommonOptions;
  const inputs = context.graph.recordsOf('design-input').filter((input) => isShown(input, options));
  if (inputs.length === 0) return { blocks: [notice('There are no design inputs.')] };
  const rows = inputs.flatMap((input): readonly Row[] => {
    const { limits } = input.fields;
    return limits.map((limit, index) => {
      const tests = testsOf(input.id, limit, context);
      const results = tests.flatMap((verifier) => resultsOf(verifier, limit, context));
      return {
        ...(index === 0 ? { recordId: input.id } : {}),
        cells: [
          ...(index === 0
            ? [spanning(limits.length, ...onLines([[reference(input.id)], [text(input.title)]]))]
            : []),
          cell(text(limit.characteristic)),
          cell(
            text(
              limitWords({ ...limit, ...writtenBounds(input, ['limits', index]) }),
              hasNumber(limit) ? { bold: true } : {},
            ),
          ),
          cell(text(conditionsOf(limit).join(', '))),
          cell(...orNothing(onLines(tests.map(({ id }) => [reference(id)])), 'not tested')),
          cell(
            ...orNothing(
              onLines(results.map(({ id, verdict }) => [reference(id), text(': '), verdictText(verdict)])),
              'no result',
            ),
          ),
        ],
      };
    });
  });
  return {
    blocks: [
      {
        kind: 'table',
        ...captionOf(options),
        columns: [
          { title: 'Design input', width: 24 },
          { title: 'Characteristic', width: 22 },
          { title: 'Limit', width: 18 },
          { title: 'Condition', width: 12 },
          { title: 'Tested by', width: 11 },
          { title: 'Result', width: 16 },
        ],
        rows,
        description:
          'Each row is one limit of a design input, with the protocols and analyses that judge it and what their data say.',
      },
    ],
  };
};

/** Every limit with its number, condition, test and result. */
export const limitsView: View = { name: 'limits', draw };

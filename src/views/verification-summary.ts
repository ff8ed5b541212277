import type { Inline, Row, Table } from '../document/model.ts';
import { limitWords } from '../evidence/limit-words.ts';
import { confidenceReliability } from '../evidence/number-text.ts';
import type { CharacteristicEvidence, EvidenceResult } from '../evidence/result.ts';
import { compareIds } from '../graph/trace-graph.ts';
import {
  cell,
  nothing,
  notice,
  onLines,
  orNothing,
  reference,
  references,
  spanning,
  text,
  verdictText,
} from './cells.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

const carriers = ['verification-record', 'validation-record', 'analysis'] as const;

interface Plan {
  readonly inputs: readonly string[];
  readonly condition: string;
  readonly words: string;
  /** The protocol plans less than the sampling policy asks, with a written reason. */
  readonly hasException: boolean;
}

const planOf = (result: EvidenceResult, { graph }: ViewContext): Plan => {
  const protocol =
    result.protocol === undefined
      ? undefined
      : (graph.recordOf('verification-protocol', result.protocol) ??
        graph.recordOf('validation-protocol', result.protocol));
  const verifier = protocol ?? graph.record(result.record);
  const inputs = graph.linksFrom(verifier?.id ?? '', 'verifies').map((link) => link.to);
  const needs = graph.linksFrom(verifier?.id ?? '', 'validates').map((link) => link.to);
  const sampling = protocol?.fields.sampling;
  const shown =
    sampling?.confidence !== undefined && sampling.reliability !== undefined
      ? `, ${confidenceReliability(sampling.confidence, sampling.reliability)}`
      : '';
  return {
    inputs: [...inputs, ...needs].sort(compareIds),
    condition:
      protocol?.type === 'verification-protocol'
        ? protocol.fields.condition
        : protocol
          ? 'in use'
          : 'calculation',
    words: sampling ? `${sampling.kind.replaceAll('-', ' ')}${shown}` : result.method.replaceAll('-', ' '),
    hasException: sampling?.exception !== undefined,
  };
};

/** What a reader must weigh beside the figures: revisions tested, excluded units, deviations. */
const remarks = (result: EvidenceResult, { graph }: ViewContext): readonly (readonly Inline[])[] => {
  const tested = (graph.record(result.record)?.fields['tested'] ?? []) as readonly {
    readonly output: string;
    readonly revision: string;
  }[];
  const deviations = [...new Set(graph.linksTo(result.record, 'against').map((link) => link.from))];
  const quietly = (words: string): readonly Inline[] => [text(words, { tone: 'quiet' })];
  return [
    ...(tested.length > 0
      ? [quietly(tested.map(({ output, revision }) => `${output} rev. ${revision}`).join(', '))]
      : []),
    ...(result.excludedUnits.length > 0 ? [quietly(`excluded: ${result.excludedUnits.join(', ')}`)] : []),
    ...(deviations.length > 0 ? [[text('deviation '), ...references(deviations)]] : []),
  ];
};

const resultWords = (each: CharacteristicEvidence): readonly Inline[] => {
  const unmet = each.assumptions.filter(
    (assumption) => assumption.outcome === 'not met' || assumption.outcome === 'to explain',
  );
  return onLines([
    [text(each.reason)],
    ...unmet.map((assumption) => [text(`${assumption.name}: ${assumption.detail}`, { tone: 'caution' })]),
  ]);
};

const draw: View['draw'] = (body, context) => {
  const options = body as CommonOptions & { readonly types?: readonly string[] };
  const { graph, evidence } = context;
  const results = [...evidence.values()].filter((result) => {
    const record = graph.record(result.record);
    return (
      record !== undefined &&
      (options.types ?? (carriers as readonly string[])).includes(record.type) &&
      isShown(record, options)
    );
  });
  if (results.length === 0) return { blocks: [notice('Nothing has been verified yet.')] };
  const rows = results.flatMap((result): Row[] => {
    const plan = planOf(result, context);
    const record = graph.record(result.record);
    const repeated = graph.linksTo(result.record, 'retests')[0]?.from;
    const characteristics = result.characteristics;
    const span = Math.max(1, characteristics.length);
    const left = [
      spanning(
        span,
        ...onLines([[reference(result.record)], [text(record?.title ?? '')], ...remarks(result, context)]),
      ),
      spanning(span, ...(result.protocol ? [reference(result.protocol)] : [nothing('analysis')])),
      spanning(span, ...orNothing(references(plan.inputs))),
      spanning(
        span,
        ...onLines([
          [text(plan.condition)],
          [text(plan.words, { tone: 'quiet' })],
          ...(plan.hasException
            ? [[text('written exception to the sampling policy', { tone: 'caution' })]]
            : []),
        ]),
      ),
    ];
    const verdictOf = (each: CharacteristicEvidence): readonly Inline[] =>
      repeated && each.verdict === 'fail'
        ? onLines([[verdictText(each.verdict)], [text('repeated by')], [reference(repeated)]])
        : [verdictText(each.verdict)];
    if (characteristics.length === 0)
      return [
        {
          recordId: result.record,
          cells: [
            ...left,
            cell(nothing('not known')),
            cell(nothing('0')),
            cell(text(result.reason)),
            cell(verdictText(result.verdict)),
          ],
        },
      ];
    return characteristics.map((each, index) => ({
      ...(index === 0 ? { recordId: result.record } : {}),
      cells: [
        ...(index === 0 ? left : []),
        cell(
          ...onLines([
            [text(each.limits.characteristic)],
            [text(limitWords(each.limits), each.limits.criterion === undefined ? { bold: true } : {})],
          ]),
        ),
        cell(result.protocol ? text(String(each.sampleSize)) : nothing('–')),
        cell(...resultWords(each)),
        cell(...verdictOf(each)),
      ],
    }));
  });
  const table: Table = {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: 'Record', width: 20 },
      { title: 'Protocol', width: 9 },
      { title: 'Shows', width: 8 },
      { title: 'Condition and method', width: 17 },
      { title: 'Acceptance', width: 19 },
      { title: 'n', width: 5, align: 'right' },
      { title: 'Result from the raw data', width: 28 },
      { title: 'Verdict', width: 11 },
    ],
    rows,
    description:
      'Each row is one characteristic of one record: its acceptance, the number of units, the result computed from the raw data and the verdict.',
  };
  return { blocks: [table] };
};

export const verificationSummary: View = { name: 'verification-summary', draw };

import type { Block } from '../document/model.ts';
import type { EvidenceResult } from '../evidence/result.ts';
import { nearestName } from '../records/nearest-name.ts';
import { notice, text } from './cells.ts';
import { figuresOf } from './evidence-figures.ts';
import { workingOf } from './evidence-working.ts';
import type { View, ViewContext, ViewProblem } from './view.ts';

interface Options {
  readonly of: readonly string[];
  readonly figures?: readonly string[];
}

/** Types of records that have raw data, or calculate. */
const bearsEvidence: ReadonlySet<string> = new Set([
  'verification-record',
  'validation-record',
  'analysis',
  'test-method',
]);

/** The evidence of a record; else what to say, or a problem of the block. */
export const evidenceOf = (
  id: string,
  path: ViewProblem['path'],
  { graph, evidence }: ViewContext,
): { readonly result: EvidenceResult } | { readonly block: Block } | { readonly problem: ViewProblem } => {
  const result = evidence.get(id);
  if (result) return { result };
  const record = graph.record(id);
  if (record && bearsEvidence.has(record.type))
    return { block: notice(`${id} carries no evidence, so there is no working to show.`, 'caution') };
  const near = nearestName(id, [...evidence.keys()]);
  return {
    problem: {
      path,
      message: record ? `${id} is of a type that carries no evidence` : `there is no record ${id}`,
      hint: !record && near ? `Did you mean ${near}?` : 'Name a record that carries evidence.',
    },
  };
};

/** A problem where a figure was asked for that none of the evidence allows. */
export const missingFigure = (
  name: string,
  path: ViewProblem['path'],
  results: readonly EvidenceResult[],
  { graph }: ViewContext,
): ViewProblem | undefined => {
  const known = new Set(
    results.flatMap((result) =>
      result.characteristics.flatMap((each) => figuresOf(result, each, graph).map((figure) => figure.name)),
    ),
  );
  return known.has(name)
    ? undefined
    : {
        path,
        message: `the evidence of ${results.map((result) => result.record).join(', ')} has no figure "${name}"`,
        hint: known.size > 0 ? `Use one of: ${[...known].join(', ')}.` : 'Leave the figure out.',
      };
};

const draw: View['draw'] = (body, context) => {
  const { of, figures } = body as unknown as Options;
  const found = of.map((id, index) => ({ id, outcome: evidenceOf(id, ['of', index], context) }));
  const results = found.flatMap(({ outcome }) => ('result' in outcome ? [outcome.result] : []));
  const problems = [
    ...found.flatMap(({ outcome }) => ('problem' in outcome ? [outcome.problem] : [])),
    ...(results.length > 0
      ? (figures ?? []).flatMap(
          (name, index) => missingFigure(name, ['figures', index], results, context) ?? [],
        )
      : []),
  ];
  if (problems.length > 0) return { blocks: [], problems };
  return {
    blocks: found.flatMap(({ id, outcome }): readonly Block[] => {
      if ('block' in outcome) return [outcome.block];
      if (!('result' in outcome)) return [];
      return [
        {
          kind: 'heading',
          level: Math.min(6, context.enclosingLevel + 1) as 1 | 2 | 3 | 4 | 5 | 6,
          children: [text(`${id} ${context.graph.record(id)?.title ?? ''}`)],
          recordId: id,
        },
        ...workingOf(outcome.result, context, figures === undefined ? {} : { figures }),
      ];
    }),
  };
};

/** The working of records, so that a reviewer can repeat it by hand. */
export const evidenceView: View = { name: 'evidence', draw };

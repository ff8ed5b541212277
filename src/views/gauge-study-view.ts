import type { Block, Table } from '../document/model.ts';
import { fixed } from '../evidence/number-text.ts';
import type { EvidenceResult } from '../evidence/result.ts';
import { compareIds } from '../graph/trace-graph.ts';
import { withUnit } from '../records/units.ts';
import {
  cell,
  nothing,
  notice,
  onLines,
  orNothing,
  reference,
  references,
  text,
  verdictText,
} from './cells.ts';
import { evidenceOf } from './evidence-view.ts';
import { workingOf } from './evidence-working.ts';
import {
  type CommonOptions,
  captionOf,
  isShown,
  type View,
  type ViewContext,
  type ViewProblem,
} from './view.ts';

interface Options extends CommonOptions {
  readonly of?: readonly string[];
  readonly working?: boolean;
}

const draw: View['draw'] = (body, context) => {
  const options = body as unknown as Options;
  const { of, working = of !== undefined } = options;
  const problems: ViewProblem[] = [];
  const results: EvidenceResult[] = [];
  const missing: Block[] = [];
  const all = context.graph
    .recordsOf('test-method')
    .filter((method) => method.fields.study && isShown(method, options))
    .map((method) => method.id)
    .sort(compareIds);
  for (const [index, id] of (of ?? all).entries()) {
    const outcome = evidenceOf(id, ['of', index], context);
    if ('problem' in outcome) problems.push(outcome.problem);
    else if ('block' in outcome) missing.push(notice(`${id} has no study of its measurement.`, 'caution'));
    else if (context.graph.record(id)?.type !== 'test-method')
      problems.push({
        path: ['of', index],
        message: `${id} is not a test method`,
        hint: 'Name test methods; the working of other records is drawn by the view "evidence".',
      });
    else results.push(outcome.result);
  }
  if (problems.length > 0) return { blocks: [], problems };
  if (results.length === 0)
    return {
      blocks: missing.length > 0 ? missing : [notice('No test method has a study of its measurement yet.')],
    };
  return {
    blocks: [
      summary(results, options, context),
      ...missing,
      ...(working
        ? results.flatMap((result): readonly Block[] => [
            {
              kind: 'heading',
              level: Math.min(6, context.enclosingLevel + 1) as 1 | 2 | 3 | 4 | 5 | 6,
              children: [text(`${result.record} ${context.graph.record(result.record)?.title ?? ''}`)],
              recordId: result.record,
            },
            ...workingOf(result, context),
          ])
        : []),
    ],
  };
};

const summary = (results: readonly EvidenceResult[], options: Options, { graph }: ViewContext): Table => ({
  kind: 'table',
  ...captionOf(options),
  columns: [
    { title: 'Test method', width: 26 },
    { title: 'Study', width: 18 },
    { title: 'Design', width: 18 },
    { title: 'Result', width: 28 },
    { title: 'Verdict', width: 10 },
    { title: 'Used by', width: 10 },
  ],
  rows: results.map((result) => {
    const [evidence] = result.characteristics;
    const method = graph.recordOf('test-method', result.record);
    const design = evidence?.assumptions.find((each) => each.name === 'design of the study')?.detail;
    const users = graph.linksTo(result.record, 'uses').map((link) => link.from);
    const categories = evidence?.values.find((value) => value.key === 'distinct_categories');
    return {
      cells: [
        cell(
          ...onLines([
            [reference(result.record)],
            [text(method?.title ?? '')],
            ...(method?.fields.resolution === undefined
              ? []
              : [
                  [
                    text(
                      `resolution ${withUnit(String(method.fields.resolution), method.fields.unit ?? '1')}`,
                      {
                        tone: 'quiet' as const,
                      },
                    ),
                  ],
                ]),
          ]),
        ),
        cell(text(result.method.replaceAll('-', ' '))),
        cell(design === undefined ? nothing('not known') : text(design)),
        cell(
          ...onLines([
            [text(result.reason)],
            ...(categories
              ? [[text(`${fixed(categories.value, 0)} distinct categories`, { tone: 'quiet' as const })]]
              : []),
          ]),
        ),
        cell(verdictText(result.verdict)),
        cell(...orNothing(references([...new Set(users)].sort(compareIds)), 'nothing')),
      ],
    };
  }),
  description: 'Studies of test methods: design, result computed from the raw data, and verdict.',
});

/** Studies of test methods: a table, and the working of each where it is asked for. */
export const gaugeStudyView: View = { name: 'gauge-study', draw };

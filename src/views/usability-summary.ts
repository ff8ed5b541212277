import type { Block, Heading, Inline } from '../document/model.ts';
import { problemDiscovery } from '../evidence/problem-discovery.ts';
import { criticalityOf, criticalityWords } from '../evidence/use-scenarios.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';
import {
  cell,
  nothing,
  notice,
  onLines,
  orNothing,
  reference,
  references,
  standingText,
  text,
  verdictText,
} from './cells.ts';
import { type CommonOptions, isShown, type View, type ViewContext } from './view.ts';

interface Options extends CommonOptions {
  readonly problem_shares?: readonly number[];
}

const usualShares = [0.05, 0.1, 0.2];

const heading = (title: string, { enclosingLevel }: ViewContext, recordId?: string): Heading => ({
  kind: 'heading',
  level: Math.min(enclosingLevel + 1, 6) as Heading['level'],
  children: [text(title)],
  ...(recordId === undefined ? {} : { recordId }),
});

const specification = (
  { id, title, fields }: RecordOf<'use-specification'>,
  context: ViewContext,
): readonly Block[] => [
  heading(`${id} ${title}`, context, id),
  {
    kind: 'particulars',
    entries: [
      { name: 'Medical indication', value: [text(fields.indication)] },
      { name: 'Patients', value: [text(fields.patients)] },
      { name: 'Part of the body', value: [text(fields.part_of_body)] },
      { name: 'Environment', value: [text(fields.environment)] },
      { name: 'Operating principle', value: [text(fields.operating_principle)] },
      ...fields.user_groups.map(({ group, name, characteristics, tasks }) => ({
        name: `${group} ${name}`,
        value: onLines(
          [...(tasks === undefined ? [] : [tasks]), ...characteristics].map((line) => [text(line)]),
        ),
      })),
    ],
  },
];

const scenarioTable = (scenarios: readonly RecordOf<'use-scenario'>[], context: ViewContext): Block => ({
  kind: 'table',
  caption: 'Hazard-related use scenarios',
  columns: [
    { title: 'Scenario', width: 18 },
    { title: 'Task and groups', width: 16 },
    { title: 'Foreseeable use errors', width: 28 },
    { title: 'Risks', width: 10 },
    { title: 'Critical', width: 20 },
    { title: 'Selected', width: 24 },
    { title: 'Evaluated by', width: 14 },
  ],
  rows: scenarios.map((scenario) => {
    const { fields } = scenario;
    const criticality = criticalityOf(scenario, context.graph, context.project.fields);
    return {
      recordId: scenario.id,
      cells: [
        cell(...onLines([[reference(scenario.id)], [text(scenario.title)]])),
        cell(...onLines([[text(fields.task)], [text(fields.user_groups.join(', '), { tone: 'quiet' })]])),
        cell(...onLines(fields.use_errors.map((error) => [text(error)]))),
        cell(...orNothing(references(fields.risks))),
        cell(
          ...(criticality
            ? onLines([[text('critical', { bold: true })], [text(criticalityWords(criticality))]])
            : [text('not critical')]),
        ),
        cell(
          ...onLines([
            [text(fields.selected ? 'yes' : 'no', { bold: true })],
            [
              fields.selection_reason === undefined
                ? nothing('no reason given')
                : text(fields.selection_reason),
            ],
          ]),
        ),
        cell(
          ...orNothing(references(fields.evaluated_by ?? []), 'no study'),
          { kind: 'line-break' },
          standingText(context.standing.get(scenario.id)?.state ?? 'unplanned'),
        ),
      ],
    };
  }),
  description:
    'Each row is one task in which a use error can lead to harm, with its risks, why it is critical, and the study in which users do it.',
});

const percent = (share: number): string => `${Number((share * 100).toPrecision(6))} %`;

const studyBlocks = (
  protocol: RecordOf<'validation-protocol'>,
  shares: readonly number[],
  context: ViewContext,
): readonly Block[] => {
  const { graph, evidence } = context;
  const records = graph
    .sources(protocol.id, 'reports', 'validation-record')
    .filter((record) => record.status !== 'retired');
  const { user_groups: groups, tasks, study, environment } = protocol.fields;
  const takenPart = (group: string): string =>
    records.map(({ id }) => evidence.get(id)?.groups?.get(group) ?? 0).join(' and ') || 'not carried out';
  const outcomeRows = records.flatMap((record) =>
    tasks.map(({ task, critical }) => {
      const outcomes = evidence.get(record.id)?.tasks?.get(task);
      const count = (value: number | undefined) =>
        cell(value === undefined ? nothing('no data') : text(String(value)));
      return {
        cells: [
          cell(reference(record.id)),
          cell(text(task)),
          cell(study === 'formative' ? nothing('not marked') : text(critical ? 'yes' : 'no')),
          count(outcomes?.success),
          count(outcomes?.difficulty),
          count(outcomes?.closeCall),
          count(outcomes?.useError),
        ],
      };
    }),
  );
  const observationRows = records.flatMap((record) =>
    (record.fields.observations ?? []).map(({ participant, task, kind, root_cause, judgement, risk }) => ({
      cells: [
        cell(...onLines([[reference(record.id)], [text(participant)]])),
        cell(text(task)),
        cell(text(kind, { bold: kind !== 'difficulty' })),
        cell(text(root_cause)),
        cell(judgement === undefined ? nothing('no judgement') : text(judgement)),
        cell(risk === undefined ? nothing('not named') : reference(risk)),
      ],
    })),
  );
  return [
    heading(`${protocol.id} ${protocol.title}`, context, protocol.id),
    {
      kind: 'particulars',
      entries: [
        { name: 'Kind of study', value: [text(study ?? 'not named, counted as summative')] },
        { name: 'Environment', value: [text(environment)] },
        {
          name: 'Carried out',
          value: orNothing(
            onLines(
              records.map(({ id, fields: { executed } }): readonly Inline[] => {
                const verdict = evidence.get(id)?.verdict;
                return [
                  reference(id),
                  text(`, ${executed.from} to ${executed.to}`),
                  // A formative study finds what to change; nothing passes or fails in it.
                  ...(study === 'formative'
                    ? []
                    : [text(': '), verdict ? verdictText(verdict) : nothing('no verdict')]),
                ];
              }),
            ),
            'not yet',
          ),
        },
      ],
    },
    {
      kind: 'table',
      caption: `Participants of ${protocol.id}, and the chance of meeting a problem at least once`,
      columns: [
        { title: 'Group', width: 30 },
        { title: 'Planned', width: 14, align: 'right' },
        { title: 'Taken part', width: 18, align: 'right' },
        ...shares.map((share) => ({
          title: `Problem of ${percent(share)} of users`,
          width: 18,
          align: 'right' as const,
        })),
      ],
      rows: groups.map(({ group, name, participants }) => ({
        cells: [
          cell(text(name === undefined ? group : `${group} ${name}`)),
          cell(text(String(participants))),
          cell(text(takenPart(group))),
          ...problemDiscovery(participants, shares).map(({ probability }) =>
            cell(text(probability.toFixed(3))),
          ),
        ],
      })),
      description:
        'Each row is one user group. The last columns hold, for the number planned, the chance that at least one participant meets a problem.',
    },
    {
      kind: 'paragraph',
      children: [
        text(
          'The last columns are 1 − (1 − p)ⁿ, where n is the planned number of independent participants and p the share of users that the head of the column names: the chance that at least one of them meets a problem that this share meets. They say what a study of this size can miss. They are no criterion of passing, and a study without a use error does not show that there is none.',
        ),
      ],
    },
    ...(outcomeRows.length === 0
      ? [notice('The study has no record yet.', 'caution')]
      : [
          {
            kind: 'table' as const,
            caption: `Outcomes of ${protocol.id} by task`,
            columns: [
              { title: 'Record', width: 14 },
              { title: 'Task', width: 30 },
              { title: 'Critical', width: 12 },
              { title: 'Success', width: 12, align: 'right' as const },
              { title: 'Difficulty', width: 12, align: 'right' as const },
              { title: 'Close call', width: 12, align: 'right' as const },
              { title: 'Use error', width: 12, align: 'right' as const },
            ],
            rows: outcomeRows,
            description: 'Each row is one task, with participants counted from the raw data.',
          },
        ]),
    ...(observationRows.length === 0
      ? []
      : [
          {
            kind: 'table' as const,
            caption: `Observations in ${protocol.id}`,
            columns: [
              { title: 'Participant', width: 13 },
              { title: 'Task', width: 15 },
              { title: 'Kind', width: 12 },
              { title: 'Root cause', width: 30 },
              { title: 'Judgement of the residual risk', width: 34 },
              { title: 'Risk', width: 10 },
            ],
            rows: observationRows,
            description: 'Each row is one observation with its root cause and what people judged it to mean.',
          },
        ]),
  ];
};

/** The first study first, those that were not carried out last. */
const inOrderOfTime = (
  protocols: readonly RecordOf<'validation-protocol'>[],
  graph: TraceGraph,
): readonly RecordOf<'validation-protocol'>[] => {
  const begin = ({ id }: RecordOf<'validation-protocol'>): string =>
    graph
      .sources(id, 'reports', 'validation-record')
      .filter((record) => record.status !== 'retired')
      .map((record) => record.fields.executed.from)
      .sort()[0] ?? 'later';
  // A stable sort keeps those of one day in the order of their ids.
  return protocols.toSorted((a, b) => (begin(a) < begin(b) ? -1 : begin(a) > begin(b) ? 1 : 0));
};

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const { graph } = context;
  const shown = <T extends 'use-specification' | 'use-scenario' | 'validation-protocol'>(type: T) =>
    graph.recordsOf(type).filter((record) => isShown(record, options));
  const specifications = shown('use-specification');
  const scenarios = shown('use-scenario');
  const studies = inOrderOfTime(shown('validation-protocol'), graph);
  if (specifications.length + scenarios.length + studies.length === 0)
    return { blocks: [notice('There is no use specification, use scenario or study yet.')] };
  return {
    blocks: [
      ...(specifications.length === 0
        ? [notice('There is no use specification yet.', 'caution')]
        : specifications.flatMap((record) => specification(record, context))),
      ...(scenarios.length === 0
        ? [notice('There is no use scenario yet.', 'caution')]
        : [heading('Use scenarios', context), scenarioTable(scenarios, context)]),
      ...studies.flatMap((protocol) => studyBlocks(protocol, options.problem_shares ?? usualShares, context)),
    ],
  };
};

/** Who uses the device, where a use error can lead to harm, and what the studies with users showed. */
export const usabilitySummary: View = { name: 'usability-summary', draw };

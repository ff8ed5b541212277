import type { Block, Inline, Table } from '../document/model.ts';
import { problemDiscovery } from '../evidence/problem-discovery.ts';
import { criticalityOf, criticalityWords } from '../evidence/use-scenarios.ts';
import type { RecordOf } from '../records/record.ts';
import {
  cell,
  nothing,
  notice,
  onLines,
  orNothing,
  reference,
  spanning,
  text,
  verdictText,
} from './cells.ts';
import { idList } from './risk-words.ts';
import { type CommonOptions, isShown, type View, type ViewContext } from './view.ts';

interface Options extends CommonOptions {
  readonly problem_shares?: readonly number[];
}

const usualShares = [0.05, 0.1, 0.2];

const lead = (words: string): Block => ({
  kind: 'paragraph',
  leadsIn: true,
  children: [text(words, { bold: true })],
});

const specificationBlocks = (specification: RecordOf<'use-specification'>): readonly Block[] => {
  const { indication, patients, part_of_body, environment, operating_principle, user_groups } =
    specification.fields;
  return [
    {
      kind: 'particulars',
      entries: [
        { name: 'Use specification', value: [reference(specification.id), text(` ${specification.title}`)] },
        { name: 'Indication', value: [text(indication)] },
        { name: 'Patients', value: [text(patients)] },
        { name: 'Part of the body', value: [text(part_of_body)] },
        ...user_groups.map(({ group, name, characteristics, tasks }) => ({
          name: `User group ${group}`,
          value: onLines([
            [text(`${name}: ${characteristics.join('; ')}`)],
            ...(tasks === undefined ? [] : [[text(`tasks: ${tasks}`)]]),
          ]),
        })),
        { name: 'Environment', value: [text(environment)] },
        { name: 'Operating principle', value: [text(operating_principle)] },
      ],
    },
  ];
};

const scenarioTable = (
  scenarios: readonly RecordOf<'use-scenario'>[],
  { graph, project }: ViewContext,
): Table => ({
  kind: 'table',
  caption: 'Hazard-related use scenarios',
  columns: [
    { title: 'Scenario and task', width: 22 },
    { title: 'Users', width: 10 },
    { title: 'Foreseeable use errors', width: 30 },
    { title: 'Risks', width: 14 },
    { title: 'Critical', width: 22 },
    { title: 'Summative evaluation', width: 22 },
  ],
  rows: scenarios.map((scenario) => {
    const { task, user_groups, use_errors, risks, selected, selection_reason, evaluated_by } =
      scenario.fields;
    const criticality = criticalityOf(scenario, graph, project.fields);
    return {
      recordId: scenario.id,
      cells: [
        cell(
          ...onLines([
            [reference(scenario.id)],
            [text(scenario.title)],
            [text(`task: ${task}`, { tone: 'quiet' })],
          ]),
        ),
        cell(text(user_groups.join(', '))),
        cell(...onLines(use_errors.map((error) => [text(error)]))),
        cell(...idList(risks)),
        cell(criticality ? text(`yes: ${criticalityWords(criticality)}`, { bold: true }) : text('no')),
        cell(
          ...onLines([
            [text(selected ? 'selected' : 'left out', { bold: true })],
            ...(selection_reason === undefined ? [] : [[text(selection_reason)]]),
            ...((evaluated_by ?? []).length > 0 ? [idList(evaluated_by ?? [])] : []),
          ]),
        ),
      ],
    };
  }),
  description:
    'Each hazard-related use scenario with its task, users, foreseeable use errors and risks, why it is critical, and how it is evaluated with users.',
});

const studyTable = (
  records: readonly RecordOf<'validation-record'>[],
  { graph, evidence }: ViewContext,
): Table => ({
  kind: 'table',
  caption: 'Studies with users: outcomes by task',
  columns: [
    { title: 'Study', width: 26 },
    { title: 'Participants', width: 16 },
    { title: 'Task', width: 22 },
    { title: 'Success', width: 10, align: 'right' },
    { title: 'Difficulty', width: 10, align: 'right' },
    { title: 'Close call', width: 10, align: 'right' },
    { title: 'Use error', width: 10, align: 'right' },
  ],
  rows: records.flatMap((record) => {
    const result = evidence.get(record.id);
    const protocol = graph.recordOf('validation-protocol', record.fields.reports);
    const tasks = [...(result?.tasks ?? [])];
    const span = Math.max(1, tasks.length);
    const study = spanning(
      span,
      ...onLines([
        [reference(record.id), text(` ${record.title}`)],
        [text(protocol?.fields.study ?? 'summative'), text(', '), reference(record.fields.reports)],
        [result ? verdictText(result.verdict) : nothing('no data')],
      ]),
    );
    const participants = spanning(
      span,
      ...orNothing(
        onLines([...(result?.groups ?? [])].map(([group, count]) => [text(`${group}: ${count}`)])),
      ),
    );
    if (tasks.length === 0)
      return [
        {
          recordId: record.id,
          cells: [study, participants, ...Array.from({ length: 5 }, () => cell(nothing()))],
        },
      ];
    return tasks.map(([task, outcomes], index) => {
      const critical = protocol?.fields.tasks.some((each) => each.task === task && each.critical);
      const cells = [
        cell(text(task), ...(critical ? [text(' (critical)', { tone: 'quiet' as const })] : [])),
        cell(text(String(outcomes.success))),
        cell(text(String(outcomes.difficulty))),
        cell(text(String(outcomes.closeCall))),
        cell(text(String(outcomes.useError))),
      ];
      return index === 0 ? { recordId: record.id, cells: [study, participants, ...cells] } : { cells };
    });
  }),
  description:
    'For each study: participants by group, and for each task how many succeeded, had a difficulty, a close call or made a use error.',
});

const observationTable = (records: readonly RecordOf<'validation-record'>[]): readonly Block[] => {
  const all = records.flatMap((record) =>
    (record.fields.observations ?? []).map((each) => ({ record, each })),
  );
  if (all.length === 0) return [notice('No use error, close call or difficulty was observed.')];
  return [
    {
      kind: 'table',
      caption: 'Use errors, close calls and difficulties',
      columns: [
        { title: 'Study, participant', width: 16 },
        { title: 'Task and kind', width: 18 },
        { title: 'Root cause', width: 34 },
        { title: 'Judgement of the residual risk', width: 36 },
        { title: 'Risk', width: 9 },
      ],
      rows: all.map(({ record, each }) => ({
        cells: [
          cell(...onLines([[reference(record.id)], [text(each.participant)]])),
          cell(...onLines([[text(each.task)], [text(each.kind, { bold: true })]])),
          cell(text(each.root_cause)),
          cell(each.judgement === undefined ? nothing('not judged') : text(each.judgement)),
          cell(each.risk === undefined ? nothing() : reference(each.risk)),
        ],
      })),
      description:
        'Each use error, close call and difficulty with its root cause and the judgement of the residual risk.',
    },
  ];
};

const discoveryTable = (
  records: readonly RecordOf<'validation-record'>[],
  shares: readonly number[],
  { evidence }: ViewContext,
): readonly Block[] => {
  const rows = records.flatMap((record) =>
    [...(evidence.get(record.id)?.groups ?? [])].map(([group, count]) => ({ record, group, count })),
  );
  if (rows.length === 0) return [];
  const words = (share: number): string => `${Number((share * 100).toPrecision(4))} % of users`;
  const table: Table = {
    kind: 'table',
    caption: 'How likely a problem is met at least once, by the share of users who have it',
    columns: [
      { title: 'Study and group', width: 34 },
      { title: 'Participants', width: 16, align: 'right' },
      ...shares.map((share) => ({ title: words(share), width: 16, align: 'right' as const })),
    ],
    rows: rows.map(({ record, group, count }) => ({
      cells: [
        cell(reference(record.id), text(` ${group}`)),
        cell(text(String(count))),
        ...problemDiscovery(count, shares).map(({ probability }) => cell(text(probability.toFixed(3)))),
      ],
    })),
    description:
      'The probability 1 - (1 - p)^n of meeting a problem at least once, for each group of participants.',
  };
  const note: readonly Inline[] = [
    text(
      'By 1 - (1 - p)ⁿ, for participants who are independent of each other. It says what a study of this size can miss; it is no test and decides nothing.',
    ),
  ];
  return [table, { kind: 'paragraph', children: note }];
};

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const { graph } = context;
  const specifications = graph.recordsOf('use-specification').filter((record) => isShown(record, options));
  const scenarios = graph.recordsOf('use-scenario').filter((record) => isShown(record, options));
  const records = graph.recordsOf('validation-record').filter((record) => isShown(record, options));
  if (specifications.length + scenarios.length + records.length === 0)
    return { blocks: [notice('There is nothing on usability yet.')] };
  return {
    blocks: [
      ...(specifications.length === 0
        ? [notice('There is no use specification.', 'caution')]
        : specifications.flatMap(specificationBlocks)),
      ...(scenarios.length === 0
        ? [notice('There are no hazard-related use scenarios.', 'caution')]
        : [lead('Use scenarios'), scenarioTable(scenarios, context)]),
      ...(records.length === 0
        ? [notice('No study with users has been done.', 'caution')]
        : [
            lead('Studies'),
            studyTable(records, context),
            ...observationTable(records),
            ...discoveryTable(records, options.problem_shares ?? usualShares, context),
          ]),
    ],
  };
};

export const usabilitySummary: View = { name: 'usability-summary', draw };

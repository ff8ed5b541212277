import type { Block, Cell, Document, Inline, Table } from '../document/model.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { PlinthFields } from '../records/fields.ts';
import { unitText } from '../records/units.ts';
import type { Sample } from '../vouch/sample.ts';
import type { StepApproval, VouchReadings, VouchReport, VouchStep } from '../vouch/vouch.ts';
import { cell, nothing, notice, onLines, reference, standingText, text } from './cells.ts';

export interface VouchDocumentInputs {
  readonly reports: readonly VouchReport[];
  /** How the records were drawn, where they were. */
  readonly sample?: Sample & { readonly type: string };
  readonly project: PlinthFields;
  readonly graph: TraceGraph;
  readonly contentDigest: string;
  readonly asOf: string;
  readonly toolVersion: string;
}

const caution =
  'This report shows what the records, links and raw data of the technical file say. It does not say that they are true, that the device is safe, or that the file complies with any law or standard.';

const paragraph = (...children: readonly Inline[]): Block => ({ kind: 'paragraph', children });
type Level = 1 | 2 | 3 | 4 | 5 | 6;
const heading = (level: Level, title: string, recordId?: string): Block => ({
  kind: 'heading',
  level,
  children: [text(title)],
  ...(recordId === undefined ? {} : { recordId }),
});

/** The report of an auditor's walk: for one record, or for each of a sample. */
export const vouchDocument = (inputs: VouchDocumentInputs): Document => {
  const { reports, sample, project, graph, asOf, toolVersion } = inputs;
  const { device } = project;
  const [only] = reports;
  return {
    id: sample ? 'vouch-sample' : `vouch-${only?.claim.id ?? ''}`,
    title: sample ? 'Sample walk' : `Walk from ${only?.claim.id ?? ''} to the measurement and to the need`,
    ...(sample ? {} : { subtitle: only?.claim.title ?? '' }),
    number: sample ? 'Sample walk' : `Walk ${only?.claim.id ?? ''}`,
    revision: asOf,
    status: 'as the file stands',
    date: asOf,
    organisation: device.maker,
    product: device.code ? `${device.name} ${device.code}` : device.name,
    language: project.language ?? 'en-GB',
    signatures: [],
    blocks: [
      ...(sample ? drawn(sample, reports) : []),
      ...reports.flatMap((report, index): readonly Block[] => [
        ...(sample && index > 0 ? [{ kind: 'page-break' } as const] : []),
        ...walk(report),
      ]),
      notice(caution),
    ],
    footnotes: [],
    provenance: [
      { name: 'Stated as of', value: asOf },
      { name: 'Content digest', value: inputs.contentDigest },
      { name: 'Compiled with', value: `plinth ${toolVersion}` },
      { name: 'Caution', value: caution },
    ],
    recordTitles: new Map([...graph.records.values()].map((record) => [record.id, record.title])),
  };
};

const drawn = (
  sample: Sample & { readonly type: string },
  reports: readonly VouchReport[],
): readonly Block[] => [
  heading(1, 'The sample'),
  paragraph(
    text(
      `${sample.ids.length} of ${sample.population} records of type ${sample.type}, drawn without replacement with the seed "${sample.seed}": those whose SHA-256 of the seed, a blank and the id is smallest. Anybody can draw them again.`,
    ),
  ),
  table(
    'Records drawn',
    [
      { title: 'Record', width: 40 },
      { title: 'Standing', width: 15 },
      { title: 'Where the chain does not hold', width: 45 },
    ],
    reports.map(({ claim, breaks }) => [
      cell(...onLines([[reference(claim.id)], [text(claim.title)]])),
      cell(claim.standing ? standingText(claim.standing.state) : nothing('has none')),
      cell(...(breaks.length > 0 ? onLines(breaks.map((each) => [text(each)])) : [nothing()])),
    ]),
  ),
];

const table = (caption: string, columns: Table['columns'], rows: readonly (readonly Cell[])[]): Table => ({
  kind: 'table',
  caption,
  columns,
  rows: rows.map((cells) => ({ cells })),
});

const walk = (report: VouchReport): readonly Block[] => {
  const { claim, up, down, breaks, readings, findings } = report;
  const measured = [...new Set(readings.map((each) => each.record))];
  return [
    heading(1, `${claim.id} ${claim.title}`, claim.id),
    {
      kind: 'particulars',
      entries: [
        {
          name: 'How it stands',
          value: claim.standing
            ? [
                standingText(claim.standing.state),
                text(`: ${claim.standing.reason}`),
                ...(claim.standing.because.length > 1
                  ? [
                      text(' (by ', { tone: 'quiet' }),
                      ...pathOf(claim.standing.because),
                      text(')', { tone: 'quiet' }),
                    ]
                  : []),
              ]
            : [nothing('a record of this type has no standing of its own')],
        },
        {
          name: 'Answers to',
          value: up.length > 0 ? commaIds(up.map((step) => step.id)) : [nothing('nothing above it')],
        },
        {
          name: 'Measured in',
          value: measured.length > 0 ? commaIds(measured) : [nothing('no reading below it')],
        },
      ],
    },
    ...(breaks.length > 0
      ? [
          {
            kind: 'notice',
            tone: 'bad',
            blocks: [
              paragraph(text('The chain does not hold everywhere:', { bold: true })),
              {
                kind: 'list',
                ordered: false,
                items: breaks.map((each) => ({ blocks: [paragraph(text(each))] })),
              },
            ],
          } as const,
        ]
      : [notice('Every step below is there, approved, and its approvals are in force.', 'good')]),
    ...(findings.length > 0
      ? [
          table(
            'Findings on records of this walk',
            [
              { title: 'Level', width: 10 },
              { title: 'Record', width: 12 },
              { title: 'Finding', width: 78 },
            ],
            findings.map((finding) => [
              cell(text(finding.level, { tone: finding.level === 'error' ? 'bad' : 'caution' })),
              cell(finding.records[0] === undefined ? nothing() : reference(finding.records[0])),
              cell(text(`${finding.message} (${finding.code})`)),
            ]),
          ),
        ]
      : []),
    heading(2, 'The record'),
    ...stepBlocks(claim, false),
    heading(2, 'Up to the need'),
    ...(up.length > 0
      ? up.flatMap((step) => stepBlocks(step, true))
      : [paragraph(text('It answers to nothing.'))]),
    heading(2, 'Down to the measurement'),
    ...(down.length > 0
      ? down.flatMap((step) => stepBlocks(step, true))
      : [paragraph(text('Nothing lies below it.'))]),
    ...(readings.length > 0 ? [heading(2, 'Readings'), readingsTable(readings)] : []),
  ];
};

const commaIds = (ids: readonly string[]): readonly Inline[] =>
  ids.flatMap((id, index) => (index === 0 ? [reference(id)] : [text(', '), reference(id)]));

const pathOf = (ids: readonly string[]): readonly Inline[] =>
  ids.flatMap((id, index) => (index === 0 ? [reference(id)] : [text(' › '), reference(id)]));

const approvalWords = (approval: StepApproval): readonly Inline[] => [
  text(`${approval.role}, ${approval.name}, ${approval.date}: ${approval.meaning} `),
  text(
    `(${approval.state}${approval.changed.length > 0 ? `: ${approval.changed.join(', ')} changed` : ''})`,
    {
      tone: approval.state === 'in force' ? 'good' : 'bad',
    },
  ),
  ...(approval.signature === undefined ? [] : [text(`, ${approval.signature}`, { tone: 'quiet' })]),
];

/** One step: its place in the chain, what it says, how it stands, who approved it, and its digest. */
const stepBlocks = (step: VouchStep, isOnTheWay: boolean): readonly Block[] => [
  ...(isOnTheWay
    ? [
        {
          kind: 'paragraph',
          leadsIn: true,
          children: [
            text(`${'→ '.repeat(Math.min(step.depth, 6))}${step.id} ${step.title}`, { bold: true }),
            ...(step.from === undefined
              ? []
              : [text(` (${step.from} ${step.relation} ${step.id})`, { tone: 'quiet' })]),
          ],
        } as const,
      ]
    : []),
  {
    kind: 'particulars',
    entries: [
      { name: 'Type, status', value: [text(`${step.type}, ${step.status}`)] },
      ...(step.standing
        ? [
            {
              name: 'Standing',
              value: [
                standingText(step.standing.state),
                text(step.standing.state === 'passed' ? '' : `: ${step.standing.reason}`),
              ],
            },
          ]
        : []),
      ...step.facts.map(({ name, value }) => ({ name, value: [text(value)] })),
      {
        name: 'Approved by',
        value: [
          ...onLines([
            ...step.approvals.map(approvalWords),
            ...step.missingRoles.map((role) => [text(`${role}: missing`, { tone: 'bad' })]),
            ...(step.approvals.length + step.missingRoles.length === 0 ? [[nothing('nobody')]] : []),
          ]),
        ],
      },
      {
        name: 'File, digest',
        value: onLines([[text(step.file)], [text(step.digest, { code: true })]]),
      },
    ],
  },
];

/** Readings at either end that are printed. */
const atEitherEnd = 3;

const readingsTable = (readings: readonly VouchReadings[]): Block =>
  table(
    'Readings that counted, in the order of the file',
    [
      { title: 'Record', width: 10 },
      { title: 'Characteristic', width: 22 },
      { title: 'Number', width: 9, align: 'right' },
      { title: 'Smallest, largest', width: 17 },
      { title: 'First and last', width: 22 },
      { title: 'File, SHA-256', width: 20 },
    ],
    readings.map((each) => {
      const unit = unitText(each.unit);
      const { readings: list } = each;
      const ends =
        list.length <= 2 * atEitherEnd
          ? list.join(', ')
          : `${list.slice(0, atEitherEnd).join(', ')} … ${list.slice(-atEitherEnd).join(', ')}`;
      return [
        cell(reference(each.record)),
        cell(text(`${each.characteristic}${unit === '' ? '' : ` in ${unit}`}`)),
        cell(text(String(list.length))),
        cell(text(`${smallest(list)}, ${largest(list)}`)),
        cell(text(ends)),
        cell(
          ...onLines([
            [text(each.dataFile ?? 'none')],
            ...(each.dataDigest === undefined ? [] : [[text(each.dataDigest.slice(0, 16), { code: true })]]),
          ]),
        ),
      ];
    }),
  );

// A loop, since a list of a hundred thousand readings is too long for the arguments of Math.min.
const smallest = (list: readonly number[]): number => list.reduce((a, b) => Math.min(a, b));
const largest = (list: readonly number[]): number => list.reduce((a, b) => Math.max(a, b));

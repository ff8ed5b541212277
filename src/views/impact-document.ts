import type { RecordChange } from '../change/compare-records.ts';
import type { ValueChange } from '../change/compare-values.ts';
import type { ParagraphChange } from '../change/compare-words.ts';
import { type Impact, isWithoutImpact, type StateName } from '../change/impact.ts';
import type { LapsedApproval } from '../change/lapsed-approvals.ts';
import type { TestToRepeat } from '../change/tests-to-repeat.ts';
import type { Block, Cell, Document, Inline, Table } from '../document/model.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { PlinthFields } from '../records/fields.ts';
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

export interface ImpactDocumentInputs {
  readonly impact: Impact;
  readonly project: PlinthFields;
  /** The later state, for titles of records. */
  readonly graph: TraceGraph;
  readonly asOf: string;
  readonly toolVersion: string;
  /** The design change that the report is made for. */
  readonly change?: RecordOf<'design-change'>;
}

const caution =
  'This report lists what the records and links of the technical file show to be touched by the change. It does not know what no record says. What a change means for safety and conformity, and what must be tested again, is for qualified people to decide and to record.';

const heading = (title: string): Block => ({ kind: 'heading', level: 1, children: [text(title)] });
const paragraph = (...children: readonly Inline[]): Block => ({ kind: 'paragraph', children });

/** A path as `VR-09 › VP-09 › DI-09`. */
const pathOf = (path: readonly string[]): readonly Inline[] =>
  path.flatMap((id, index) =>
    index === 0 ? [reference(id)] : [text(' › ', { tone: 'quiet' }), reference(id)],
  );

const reasonLines = (
  reasons: readonly { readonly text: string; readonly path: readonly string[] }[],
): readonly Inline[] =>
  onLines(
    reasons.flatMap((reason) => [
      [text(reason.text)],
      ...(reason.path.length > 1 ? [[text('by ', { tone: 'quiet' }), ...pathOf(reason.path)]] : []),
    ]),
  );

const named = (id: string, title: string): Cell => cell(...onLines([[reference(id)], [text(title)]]));

const stateWords = ({ name, commit, date }: StateName): string =>
  [name, commit === undefined ? undefined : `commit ${commit.slice(0, 12)}`, date]
    .filter((part) => part !== undefined)
    .join(', ');

/** The change impact report: what differs, and what follows from it. */
export const impactDocument = (inputs: ImpactDocumentInputs): Document => {
  const { impact, project, graph, asOf, toolVersion, change } = inputs;
  const { device } = project;
  return {
    id: change ? `${change.id}-impact` : 'change-impact',
    title: 'Change impact report',
    subtitle: `From ${impact.before.name} to ${impact.after.name}`,
    number: change ? `${change.id}, impact` : 'Change impact',
    revision: impact.after.commit?.slice(0, 12) ?? 'not committed',
    status: 'for review',
    date: asOf,
    organisation: device.maker,
    product: device.code ? `${device.name} ${device.code}` : device.name,
    language: project.language ?? 'en-GB',
    signatures: [],
    blocks: [
      ...summary(impact),
      ...(change ? forChange(change, impact) : []),
      ...whatChanged(impact),
      ...tests(impact, change?.id),
      ...approvals(impact),
      ...risks(impact),
      ...requirements(impact),
      ...labels(impact),
      ...documents(impact),
      ...standing(impact),
    ],
    footnotes: [],
    provenance: [
      { name: 'Earlier state', value: stateWords(impact.before) },
      { name: 'Later state', value: stateWords(impact.after) },
      { name: 'Stated as of', value: asOf },
      { name: 'Compiled with', value: `plinth ${toolVersion}` },
      { name: 'Caution', value: caution },
    ],
    recordTitles: new Map([...graph.records.values()].map((record) => [record.id, record.title])),
  };
};

const count = (number: number, one: string, many = `${one}s`): string =>
  `${number} ${number === 1 ? one : many}`;

const summary = (impact: Impact): readonly Block[] => {
  const normative = impact.records.filter((each) => each.kind === 'changed' && each.isNormative).length;
  const added = impact.records.filter((each) => each.kind === 'added').length;
  const removed = impact.records.filter((each) => each.kind === 'removed').length;
  const repeat = impact.tests.filter((each) => each.action === 'repeat').length;
  const entries = [
    { name: 'From', value: [text(stateWords(impact.before))] },
    { name: 'To', value: [text(stateWords(impact.after))] },
    {
      name: 'Records',
      value: [text(`${normative} changed in content, ${added} added, ${removed} removed`)],
    },
    {
      name: 'Results',
      value: [text(`${repeat} to repeat, ${impact.tests.length - repeat} to argue anew`)],
    },
    {
      name: 'Approvals',
      value: [
        text(
          `${impact.approvals.filter((each) => each.isNew).length} lapse${impact.approvals.some((each) => !each.isNew) ? `, ${impact.approvals.filter((each) => !each.isNew).length} had lapsed before` : ''}`,
        ),
      ],
    },
    {
      name: 'Further',
      value: [
        text(
          [
            count(impact.risks.length, 'risk'),
            count(impact.requirements.length, 'legal requirement'),
            count(impact.labels.length, 'label or text for users', 'labels or texts for users'),
            count(impact.documents.length, 'document'),
          ].join(', '),
        ),
      ],
    },
  ];
  return [
    ...impact.unseen.map((each) => notice(`Not seen: ${each}.`, 'caution')),
    { kind: 'particulars', entries },
    ...(isWithoutImpact(impact)
      ? [notice('Nothing differs that anybody would have to act on.', 'good')]
      : []),
    notice(caution),
  ];
};

/** The design change, and its decisions held against what the comparison found. */
const forChange = (change: RecordOf<'design-change'>, impact: Impact): readonly Block[] => {
  const decided = new Map((change.fields.decisions ?? []).map((each) => [each.record, each]));
  const undecided = impact.tests.filter((test) => !decided.has(test.id));
  const touched = new Set(impact.tests.map((test) => test.id));
  const idle = [...decided.keys()].filter((id) => !touched.has(id));
  return [
    heading('The design change'),
    {
      kind: 'particulars',
      entries: [
        { name: 'Design change', value: [reference(change.id), text(` ${change.title}`)] },
        { name: 'Decided', value: [text(change.fields.date)] },
        { name: 'Status', value: [text(change.status)] },
        { name: 'Significance', value: [text(change.fields.significance)] },
        {
          name: 'Named as affected',
          value: orNothing(
            (change.fields.affected ?? []).flatMap((id, index) =>
              index === 0 ? [reference(id)] : [text(', '), reference(id)],
            ),
          ),
        },
      ],
    },
    ...(undecided.length > 0
      ? [
          notice(
            `${change.id} decides nothing about ${undecided.map((each) => each.id).join(', ')}, which the comparison shows to be touched.`,
            'caution',
          ),
        ]
      : []),
    ...(idle.length > 0
      ? [
          notice(
            `${change.id} decides about ${idle.join(', ')}, which nothing that differs between the two states touches.`,
          ),
        ]
      : []),
  ];
};

const table = (caption: string, columns: Table['columns'], rows: readonly (readonly Cell[])[]): Table => ({
  kind: 'table',
  caption,
  columns,
  rows: rows.map((cells) => ({ cells })),
});

const demandWords: Readonly<Record<NonNullable<ValueChange['demand']>, string>> = {
  tighter: ' (tighter)',
  looser: ' (looser)',
};

const valueRow = (lead: Cell, change: ValueChange): readonly Cell[] => [
  lead,
  cell(text(change.label)),
  cell(change.before === undefined ? nothing() : text(change.before)),
  cell(
    ...(change.after === undefined
      ? [nothing()]
      : [text(change.after, { bold: true }), text(change.demand ? demandWords[change.demand] : '')]),
  ),
];

/** Words around a change that are shown; the rest of a long paragraph is left out. */
const wordsAround = 60;

const shortened = (value: string, index: number, last: number): string => {
  if (value.length <= 2 * wordsAround) return value;
  const head = index === 0 ? '' : value.slice(0, wordsAround);
  const tail = index === last ? '' : value.slice(-wordsAround);
  return `${head} … ${tail}`;
};

const paragraphWords = (change: ParagraphChange): readonly Inline[] =>
  change.runs.map((run, index) =>
    run.kind === 'same'
      ? text(shortened(run.text, index, change.runs.length - 1))
      : run.kind === 'added'
        ? text(run.text, { inserted: true })
        : text(run.text, { strike: true }),
  );

const statusWords = (change: RecordChange): string =>
  change.statusBefore !== undefined &&
  change.statusAfter !== undefined &&
  change.statusBefore !== change.statusAfter
    ? `status ${change.statusBefore} → ${change.statusAfter}`
    : '';

const whatBecame = (change: RecordChange): string =>
  [
    change.kind === 'changed' ? (change.isNormative ? 'content changed' : '') : change.kind,
    statusWords(change),
  ]
    .filter((part) => part !== '')
    .join('; ');

const whatChanged = ({ records, settings, dataFiles }: Impact): readonly Block[] => {
  const values = [
    ...settings.map((change) => valueRow(cell(text('plinth.yaml')), change)),
    ...records.flatMap((record) =>
      record.fields.map((change) => valueRow(cell(reference(record.id)), change)),
    ),
  ];
  const bodies = records.filter((record) => record.body.length > 0);
  const blocks: Block[] = [heading('What changed')];
  if (records.length + settings.length + dataFiles.length === 0)
    blocks.push(paragraph(text('No record, setting or raw-data file differs.')));
  if (records.length > 0)
    blocks.push(
      table(
        'Records that differ',
        [
          { title: 'Record', width: 40 },
          { title: 'Type', width: 25 },
          { title: 'What became of it', width: 35 },
        ],
        records.map((record) => [
          named(record.id, record.title),
          cell(text(record.type)),
          cell(text(whatBecame(record))),
        ]),
      ),
    );
  if (values.length > 0)
    blocks.push(
      table(
        'Values that differ',
        [
          { title: 'Record', width: 12 },
          { title: 'Value', width: 30 },
          { title: 'Before', width: 29 },
          { title: 'After', width: 29 },
        ],
        values,
      ),
    );
  if (bodies.length > 0)
    blocks.push(
      table(
        'Words that differ: what was taken out is struck through, what was put in underlined',
        [
          { title: 'Record', width: 12 },
          { title: 'Line', width: 8, align: 'right' },
          { title: 'Words', width: 80 },
        ],
        bodies.flatMap((record) =>
          record.body.map((change) => [
            cell(reference(record.id)),
            cell(text(String(change.line))),
            cell(...paragraphWords(change)),
          ]),
        ),
      ),
    );
  if (dataFiles.length > 0)
    blocks.push(
      table(
        'Raw-data files that differ',
        [
          { title: 'File', width: 35 },
          { title: 'What became of it', width: 15 },
          { title: 'Named by', width: 15 },
          { title: 'SHA-256 before and after', width: 35 },
        ],
        dataFiles.map((file) => [
          cell(text(file.path)),
          cell(text(file.kind)),
          cell(...orNothing(references(file.records), 'no record')),
          cell(
            ...onLines([
              [file.digestBefore ? text(file.digestBefore.slice(0, 16), { code: true }) : nothing()],
              [file.digestAfter ? text(file.digestAfter.slice(0, 16), { code: true }) : nothing()],
            ]),
          ),
        ]),
      ),
    );
  return blocks;
};

const decisionLines = (test: TestToRepeat, changeId: string | undefined): readonly Inline[] =>
  onLines([
    ...test.decisions.map((each) =>
      each.isNew || each.change === changeId
        ? [reference(each.change), text(`: ${each.decision}. `, { bold: true }), text(each.reason)]
        : [reference(each.change), text(' decided about an earlier change', { tone: 'quiet' })],
    ),
    ...test.repeatedBy.map((id) => [text('repeated by '), reference(id)]),
  ]);

const tests = ({ tests: list }: Impact, changeId: string | undefined): readonly Block[] => [
  heading('Results to repeat or to argue anew'),
  list.length === 0
    ? paragraph(text('No result rests on anything that changed.'))
    : table(
        'Results touched',
        [
          { title: 'Result', width: 20 },
          { title: 'Asked for', width: 13 },
          { title: 'Why', width: 37 },
          { title: 'Verdict before, after', width: 13 },
          { title: 'Decided', width: 17 },
        ],
        list.map((test) => [
          named(test.id, test.title),
          cell(
            text(test.action === 'repeat' ? 'repeat, or say why not' : 'argue anew', {
              bold: true,
              tone: test.action === 'repeat' ? 'bad' : 'caution',
            }),
          ),
          cell(...reasonLines(test.reasons)),
          cell(
            ...onLines([
              [test.verdictBefore ? verdictText(test.verdictBefore) : nothing()],
              [test.verdictAfter ? verdictText(test.verdictAfter) : nothing()],
            ]),
          ),
          cell(...orNothing(decisionLines(test, changeId), 'nothing decided yet')),
        ]),
      ),
];

type OneOrMore<T> = readonly [T, ...T[]];

/** Approvals of one record together: they are in order of id. */
const byRecord = (list: readonly LapsedApproval[]): readonly OneOrMore<LapsedApproval>[] => {
  const groups: [LapsedApproval, ...LapsedApproval[]][] = [];
  for (const each of list) {
    const last = groups.at(-1);
    if (last && last[0].id === each.id) last.push(each);
    else groups.push([each]);
  }
  return groups;
};

const approvals = ({ approvals: list }: Impact): readonly Block[] => [
  heading('Approvals that lapse'),
  list.length === 0
    ? paragraph(text('No approval is lapsed.'))
    : table(
        'Lapsed approvals',
        [
          { title: 'Record', width: 32 },
          { title: 'Approval', width: 33 },
          { title: 'Because of', width: 20 },
          { title: 'Since', width: 15 },
        ],
        byRecord(list).map((group) => [
          named(group[0].id, group[0].title),
          cell(
            ...onLines(
              group.map((each) => [text(each.role), text(`, ${each.name}, ${each.date}`, { tone: 'quiet' })]),
            ),
          ),
          cell(...references([...new Set(group.flatMap((each) => each.because))])),
          cell(text(group.some((each) => each.isNew) ? 'this change' : 'before')),
        ]),
      ),
];

const reasonTable = (
  caption: string,
  first: string,
  list: readonly {
    readonly id: string;
    readonly title: string;
    readonly reasons: readonly { readonly text: string; readonly path: readonly string[] }[];
  }[],
): Block =>
  table(
    caption,
    [
      { title: first, width: 35 },
      { title: 'Why', width: 65 },
    ],
    list.map((each) => [named(each.id, each.title), cell(...reasonLines(each.reasons))]),
  );

const risks = ({ risks: list }: Impact): readonly Block[] => [
  heading('Risks to evaluate again'),
  list.length === 0
    ? paragraph(text('No risk or risk control rests on anything that changed.'))
    : reasonTable('Risks touched', 'Risk', list),
];

const requirements = ({ requirements: list }: Impact): readonly Block[] =>
  list.length === 0
    ? []
    : [
        heading('Legal requirements whose evidence changed'),
        reasonTable('Legal requirements touched', 'Requirement', list),
      ];

const labels = ({ labels: list }: Impact): readonly Block[] => [
  heading('Labels and texts for users'),
  list.length === 0
    ? paragraph(text('No label, pack or text for users is touched.'))
    : reasonTable('Labels and texts touched', 'Output', list),
];

const documents = ({ documents: list }: Impact): readonly Block[] => [
  heading('Documents to issue again'),
  list.length === 0
    ? paragraph(text('No document reads differently.'))
    : table(
        'Documents that read differently',
        [
          { title: 'Document', width: 50 },
          { title: 'What became of it', width: 20 },
          { title: 'Revision', width: 30 },
        ],
        list.map((each) => [
          named(each.id, each.title),
          cell(text(each.kind)),
          cell(
            text(
              each.needsRevision
                ? `still ${each.revision}: give it a new one if it was issued`
                : each.revision,
            ),
          ),
        ]),
      ),
];

const standing = ({ standing: list }: Impact): readonly Block[] => [
  heading('Standing'),
  list.length === 0
    ? paragraph(text('Everything stands as before.'))
    : table(
        'Standing that differs',
        [
          { title: 'Record', width: 30 },
          { title: 'Before', width: 14 },
          { title: 'After', width: 14 },
          { title: 'Why', width: 42 },
        ],
        list.map((each) => [
          named(each.id, each.title),
          cell(each.before ? standingText(each.before) : nothing()),
          cell(each.after ? standingText(each.after) : nothing()),
          cell(
            ...onLines([
              [text(each.reason ?? '')],
              ...(each.because.length > 1 ? [[text('by ', { tone: 'quiet' }), ...pathOf(each.because)]] : []),
            ]),
          ),
        ]),
      ),
];

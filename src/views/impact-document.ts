import { type Impact, isWithoutImpact, type StateName } from '../change/impact.ts';
import type { Block, Document } from '../document/model.ts';
import { shortCaution } from '../document/short-caution.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { PlinthFields } from '../records/fields.ts';
import type { RecordOf } from '../records/record.ts';
import { notice, orNothing, reference, text } from './cells.ts';
import { whatChanged } from './impact-changes.ts';
import { consequences } from './impact-consequences.ts';
import { heading } from './impact-pieces.ts';

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
      ...consequences(impact, change?.id),
    ],
    footnotes: [],
    caution: shortCaution,
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

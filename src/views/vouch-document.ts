import type { Block, Document, Inline, Signature } from '../document/model.ts';
import { shortCaution } from '../document/short-caution.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { PlinthFields } from '../records/fields.ts';
import type { Sample } from '../vouch/sample.ts';
import type { VouchReport, VouchStep } from '../vouch/vouch.ts';
import { cell, nothing, notice, onLines, reference, standingText, text } from './cells.ts';
import { commaIds, heading, paragraph, pathOf, table } from './vouch-pieces.ts';
import { measurements } from './vouch-readings.ts';
import { isLegalRequirement, stepBlocks, upwards } from './vouch-steps.ts';

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

/** The report of an auditor's walk: for one record, or for each of a sample. */
export const vouchDocument = (inputs: VouchDocumentInputs): Document => {
  const { reports, sample, project, graph, asOf, toolVersion } = inputs;
  const { device } = project;
  return {
    ...namesOf(inputs),
    revision: asOf,
    status: 'as the file stands',
    date: asOf,
    organisation: device.maker,
    product: device.code ? `${device.name} ${device.code}` : device.name,
    language: project.language ?? 'en-GB',
    signatures: reports.flatMap(({ claim }) => signaturesOf(claim)),
    blocks: [
      ...(sample ? drawn(sample, reports) : []),
      ...reports.flatMap((report, index): readonly Block[] => [
        ...(index > 0 ? [{ kind: 'page-break' } as const] : []),
        ...walk(report, reports.length === 1),
      ]),
    ],
    footnotes: [],
    caution: shortCaution,
    provenance: [
      { name: 'Stated as of', value: asOf },
      { name: 'Content digest', value: inputs.contentDigest },
      { name: 'Compiled with', value: `plinth ${toolVersion}` },
      { name: 'Caution', value: caution },
    ],
    recordTitles: new Map([...graph.records.values()].map((record) => [record.id, record.title])),
  };
};

/** Id, title and number of the report: of a sample, of one record, or of several that were named. */
const namesOf = ({
  reports,
  sample,
}: VouchDocumentInputs): Pick<Document, 'id' | 'title' | 'subtitle' | 'number'> => {
  const [first] = reports;
  if (sample) return { id: 'vouch-sample', title: 'Sample walk', number: 'Sample walk' };
  if (reports.length === 1 && first)
    return {
      id: `vouch-${first.claim.id}`,
      title: `Walk from ${first.claim.id} to the measurement and to the need`,
      subtitle: first.claim.title,
      number: `Walk ${first.claim.id}`,
    };
  return {
    id: 'vouch',
    title: `Walks from ${reports.length} records to the measurement and to the need`,
    subtitle: reports.map(({ claim }) => claim.id).join(', '),
    number: 'Walks',
  };
};

/** The approvals of the claim, for the cover: of the record, since nobody signs the walk itself. */
const signaturesOf = ({ id, approvals, missingRoles }: VouchStep): readonly Signature[] => [
  ...approvals.map(({ role, name, meaning, date, state }) => ({
    role,
    name,
    meaning: `${id}: ${meaning}`,
    date,
    state,
  })),
  ...missingRoles.map((role) => ({ role, name: '', meaning: id, date: '', state: 'unsigned' })),
];

const drawn = (
  sample: Sample & { readonly type: string },
  reports: readonly VouchReport[],
): readonly Block[] => [
  heading(1, 'The sample'),
  paragraph(
    text(
      `${sample.ids.length} of ${sample.population} records of type ${sample.type}, one plain draw without replacement and without groups, with the seed "${sample.seed}": those whose SHA-256 of the seed, a blank and the id is smallest. Anybody can draw them again.`,
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

/** One walk. Its steps are targets of links where the document holds no other walk, which might come past the same records. */
const walk = (report: VouchReport, isOnly: boolean): readonly Block[] => {
  const { claim, up, down, findings } = report;
  return [
    heading(1, `${claim.id} ${claim.title}`, claim.id),
    answer(report),
    chainNotice(report),
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
    ...stepBlocks(claim, 'claim'),
    heading(2, 'Up to the need'),
    ...(up.length > 0 ? upwards(up, isOnly) : [paragraph(text('It answers to nothing.'))]),
    heading(2, 'Down to the measurement'),
    ...(down.length > 0
      ? down.flatMap((step) => stepBlocks(step, isOnly ? 'target' : 'step'))
      : [paragraph(text('Nothing lies below it.'))]),
    ...measurements(report),
  ];
};

/** What a record of each type claims, by the names of its facts; of other types it is the statement and the limits. */
const claimedFacts: Readonly<Record<string, readonly string[]>> = {
  risk: ['Harm', 'After control'],
  'verification-record': ['Acceptance', 'Stated result', 'Verdict'],
  'validation-record': ['Acceptance', 'Stated result', 'Verdict'],
  analysis: ['Stated result', 'Verdict'],
  'verification-protocol': ['Acceptance', 'Condition', 'Sample'],
  'validation-protocol': ['Acceptance', 'Sample'],
};

const claimedBy = ({ type, title, facts }: VouchStep): readonly (readonly Inline[])[] => {
  const names = claimedFacts[type];
  const lines = names
    ? names.flatMap((name) =>
        facts.filter((each) => each.name === name).map(({ value }) => [text(`${name}: ${value}`)]),
      )
    : facts
        .filter(({ name }) => name === 'Statement' || name === 'Limit' || name === 'Solution')
        .map(({ value }) => [text(value)]);
  return lines.length > 0 ? lines : [[text(title)]];
};

/** More ids than these are listed below rather than in the short answer. */
const mostRequirements = 12;

/** The short answer: what is claimed, how it stands, what that hangs on, and where it was measured. */
const answer = ({ claim, up, readings }: VouchReport): Block => {
  const measured = [...new Set(readings.map((each) => each.record))];
  const { standing } = claim;
  const required = up.filter(isLegalRequirement);
  const above = up.filter((step) => !isLegalRequirement(step));
  return {
    kind: 'particulars',
    entries: [
      {
        name: 'Claimed',
        value: onLines(claimedBy(claim)),
      },
      {
        name: 'It stands',
        value: standing
          ? [standingText(standing.state), text(`: ${standing.reason}`)]
          : [nothing('a record of this type has no standing of its own')],
      },
      ...(standing && standing.because.length > 1
        ? [
            {
              name: standing.state === 'passed' ? 'Shown by' : 'Weakest link',
              value: pathOf(standing.because),
            },
          ]
        : []),
      {
        name: 'Answers to',
        value: above.length > 0 ? commaIds(above.map((step) => step.id)) : [nothing('nothing above it')],
      },
      ...(required.length > 0
        ? [
            {
              name: 'Required by',
              value:
                required.length > mostRequirements
                  ? [text(`${required.length} legal requirements, listed below`)]
                  : commaIds(required.map((step) => step.id)),
            },
          ]
        : []),
      {
        name: 'Measured in',
        value: measured.length > 0 ? commaIds(measured) : [nothing('no reading below it')],
      },
    ],
  };
};

const chainNotice = ({ breaks, down }: VouchReport): Block =>
  breaks.length > 0
    ? {
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
      }
    : notice(
        down.length > 0
          ? 'Every step that bears the claim is there and approved, and its approvals are in force.'
          : 'Nothing lies below this record, and nothing has to. Its approvals are in force.',
        down.length > 0 ? 'good' : 'quiet',
      );

import type { Block, Table } from '../document/model.ts';
import type { Section, SiteInline, SitePage, SitePart } from '../document/site.ts';
import { reliedOn } from '../graph/approvals.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { onLines, orNothing, text } from '../views/cells.ts';
import { workingOf } from '../views/evidence-working.ts';
import { type FieldPiece, fieldPieces } from '../views/field-values.ts';
import { revisionHistoryView } from '../views/revision-history-view.ts';
import {
  controlsOf,
  effectWords,
  evaluationWords,
  inPlaceWords,
  residualWords,
} from '../views/risk-words.ts';
import { clauseGrid } from './clause-parts.ts';
import { deliverableParts } from './deliverables.ts';
import { linkParts } from './record-links.ts';
import { showingParts } from './record-showing.ts';
import { standingParts } from './record-standing.ts';
import { approvalWord, mark, pageLink, type SiteContext } from './site-context.ts';

/** Shown elsewhere on the page. */
const inHeading = new Set(['id', 'type', 'title', 'status', 'approvals']);

/** Fields that a section of the page shows whole, by type. */
const inSection: Readonly<Record<string, string>> = { 'legal-requirement': 'clauses' };

/** Rows of raw data that the page of a record shows itself. */
const firstRows = 8;

const section = (id: string, title: string, parts: readonly SitePart[]): readonly Section[] =>
  parts.length === 0 ? [] : [{ kind: 'section', id, title, parts }];

const blocksPart = (blocks: readonly Block[]): readonly SitePart[] =>
  blocks.length === 0 ? [] : [{ kind: 'blocks', blocks }];

const fieldTable = (
  { name, columns, rows }: Extract<FieldPiece, { readonly kind: 'table' }>,
  id: string,
): Table => ({
  kind: 'table',
  caption: name,
  columns: columns.map((title) => ({ title, width: 100 / columns.length })),
  rows: rows.map((row) => ({ cells: row.map((value) => ({ children: orNothing(value, '–') })) })),
  description: `${name} of ${id}.`,
});

const fieldParts = (record: TechnicalRecord, { graph }: SiteContext): readonly SitePart[] => {
  const type = graph.types.get(record.type);
  const names = type ? type.fields : Object.keys(record.fields);
  const pieces = names
    .filter((name) => !inHeading.has(name) && name !== inSection[record.type])
    .flatMap((name) => fieldPieces(record, graph, name));
  const values = pieces.flatMap((piece) => (piece.kind === 'value' ? [piece] : []));
  return [
    ...(values.length > 0 ? [{ kind: 'facts', entries: values } as const] : []),
    ...blocksPart(pieces.flatMap((piece) => (piece.kind === 'table' ? [fieldTable(piece, record.id)] : []))),
  ];
};

const findingParts = (record: TechnicalRecord, context: SiteContext): readonly SitePart[] =>
  context.findingsOf(record.id).map(({ level, code, message, hint, records }) => ({
    kind: 'site-notice',
    tone: level === 'error' ? 'bad' : level === 'warning' ? 'caution' : 'quiet',
    lines: [
      [
        mark(level),
        text(`: ${message} `),
        pageLink(`findings.html#${code}`, text(code)),
        ...(records[0] === record.id || records[0] === undefined
          ? []
          : [text(', on '), { kind: 'record-reference', id: records[0] } as const]),
      ],
      ...(hint === undefined ? [] : [[text(`What to do: ${hint}`)]]),
    ],
  }));

const riskParts = (record: TechnicalRecord, { graph, view }: SiteContext): readonly SitePart[] => {
  const risk = graph.recordOf('risk', record.id);
  if (!risk) return [];
  const controls = controlsOf(risk, view);
  return [
    {
      kind: 'blocks',
      blocks: [
        {
          kind: 'table',
          columns: [
            { title: 'Before control', width: 50 },
            { title: 'After control', width: 50 },
          ],
          rows: [
            {
              cells: [
                { children: evaluationWords(risk, 'before', view) },
                { children: residualWords(risk, view) },
              ],
            },
          ],
          description: `Evaluation of ${risk.id} before and after control, by the criteria in force.`,
        },
        ...(controls.length === 0
          ? []
          : [
              {
                kind: 'table',
                caption: 'Controls',
                columns: [
                  { title: 'Control', width: 34 },
                  { title: 'Option', width: 20 },
                  { title: 'In place', width: 22 },
                  { title: 'Shown by', width: 24 },
                ],
                rows: controls.map((control) => ({
                  cells: [
                    {
                      children: onLines([
                        [{ kind: 'record-reference', id: control.id } as const],
                        [text(control.title)],
                      ]),
                    },
                    { children: [text(control.fields.option)] },
                    { children: inPlaceWords(control) },
                    { children: effectWords(control, view) },
                  ],
                })),
                description: `Controls of ${risk.id}, in order of priority.`,
              } as const,
            ]),
      ],
    },
  ];
};

const clauseParts = (record: TechnicalRecord, context: SiteContext): readonly SitePart[] => {
  const requirement = context.graph.recordOf('legal-requirement', record.id);
  return requirement ? [clauseGrid(requirement, context)] : [];
};

const verdictParts = (record: TechnicalRecord, context: SiteContext): readonly SitePart[] => {
  const result = context.evidence.get(record.id);
  if (!result) return [];
  const repeated = context.graph.linksTo(record.id, 'retests')[0]?.from;
  const tone = result.verdict === 'pass' ? 'good' : result.verdict === 'fail' ? 'bad' : 'caution';
  return [
    {
      kind: 'site-notice',
      tone,
      lines: [
        [
          mark(result.verdict),
          text(`: ${result.reason}.`),
          ...(repeated === undefined
            ? []
            : [text(' Repeated by '), { kind: 'record-reference', id: repeated } as const, text('.')]),
        ],
      ],
    },
  ];
};

const evidenceParts = (record: TechnicalRecord, { evidence, view }: SiteContext): readonly SitePart[] => {
  const result = evidence.get(record.id);
  return result ? blocksPart(workingOf(result, view)) : [];
};

const rawParts = (record: TechnicalRecord, context: SiteContext): readonly SitePart[] => {
  const own = [...context.raw.values()].filter((raw) => raw.records.includes(record));
  return own.flatMap(({ file, pagePath, filePath }): readonly SitePart[] => {
    const source = context.files.get(file);
    return [
      {
        kind: 'downloads',
        files: [
          { path: pagePath, label: 'Open the table', detail: file },
          {
            path: filePath,
            label: 'Download the file',
            detail: `${source?.bytes.length ?? 0} bytes, unchanged`,
          },
        ],
      },
      ...rawPreview(file, context),
    ];
  });
};

const rawPreview = (file: string, context: SiteContext): readonly SitePart[] => {
  const table = context.tableOf(file);
  if (!table) return [];
  return [
    {
      kind: 'blocks',
      blocks: [
        {
          kind: 'table',
          caption:
            table.rows > firstRows
              ? `The first ${firstRows} of ${table.rows} rows`
              : `${table.rows} row${table.rows === 1 ? '' : 's'}`,
          columns: table.columns.map(({ name, unit }) => ({
            title: unit === undefined ? name : `${name} [${unit}]`,
            width: 100 / table.columns.length,
          })),
          rows: Array.from({ length: Math.min(firstRows, table.rows) }, (_, row) => ({
            cells: table.columns.map((column) => ({ children: [text(column.cells[row]?.text ?? '')] })),
          })),
          description: `Rows of ${file}.`,
        },
      ],
    },
  ];
};

const approvalParts = (record: TechnicalRecord, { approvals, graph }: SiteContext): readonly SitePart[] => {
  const known = approvals.of(record.id);
  if (!known) return [];
  const { states, missingRoles } = known;
  const relied = reliedOn(record).filter((id) => graph.record(id));
  return [
    ...(states.length + missingRoles.length === 0
      ? [{ kind: 'words', children: [text('No approval is asked for or recorded.')] } as const]
      : [
          {
            kind: 'grid',
            id: `approvals-${record.id}`,
            caption: 'Who approved it',
            isPlain: true,
            whenEmpty: '',
            columns: [
              { title: 'Role', width: 20 },
              { title: 'Name', width: 20 },
              { title: 'Meaning', width: 26 },
              { title: 'Date', width: 14 },
              { title: 'State', width: 20 },
            ],
            rows: [
              ...states.map(({ approval, state, changed }) => ({
                cells: [
                  [text(approval.role)],
                  [text(approval.name)],
                  [text(approval.meaning)],
                  [text(approval.date)],
                  [mark(state), ...(state === 'lapsed' ? [text(': '), ...changedSince(changed)] : [])],
                ],
              })),
              ...missingRoles.map((role) => ({
                cells: [[text(role)], [text('–')], [text('–')], [text('–')], [mark('to be signed')]],
              })),
            ],
          } as const,
        ]),
    {
      kind: 'facts',
      entries: [
        {
          name: 'Digest of the content',
          value: [text(approvals.digests.get(record.id) ?? '', { code: true })],
        },
        ...(relied.length > 0
          ? [
              {
                name: 'Relies on',
                value: relied.flatMap((id, index): readonly SiteInline[] => [
                  ...(index === 0 ? [] : [text(', ')]),
                  { kind: 'record-reference', id },
                ]),
              },
            ]
          : []),
        { name: 'Source', value: [text(record.file, { code: true })] },
      ],
    },
  ];
};

const changedSince = (ids: readonly string[]): readonly SiteInline[] => [
  ...ids.flatMap((id, index): readonly SiteInline[] => [
    ...(index === 0 ? [] : [text(', ')]),
    { kind: 'record-reference', id },
  ]),
  text(' changed since'),
];

const historyParts = (record: TechnicalRecord, { view, histories }: SiteContext): readonly SitePart[] =>
  histories?.known === true && histories.of(record.id).length > 0
    ? blocksPart(revisionHistoryView.draw({ of: [record.id] }, view).blocks)
    : [];

const documentParts = (record: TechnicalRecord, context: SiteContext): readonly SitePart[] => {
  const own = context.documents.filter((each) => each.record === record && each.each === undefined);
  const copies = context.documents.filter((each) => each.record === record && each.each !== undefined);
  const list = [...own, ...copies];
  if (list.length === 0) return [];
  return [
    {
      kind: 'downloads',
      files: list.map((compiled) => ({
        path: context.documentPaths.get(compiled) ?? '',
        label: copies.length === 0 ? 'Read the document' : compiled.document.id,
        detail: compiled.document.subtitle ?? compiled.document.title,
      })),
    },
    ...own.flatMap((compiled) => deliverableParts(compiled, context)),
  ];
};

const shownInParts = (record: TechnicalRecord, context: SiteContext): readonly SitePart[] => {
  const shown = context.shownIn(record.id).filter((each) => each.record !== record);
  if (shown.length === 0) return [];
  return [
    {
      kind: 'words',
      children: shown.flatMap((compiled, index): readonly SiteInline[] => [
        ...(index === 0 ? [] : [text(', ')]),
        pageLink(
          context.documentPaths.get(compiled) ?? '',
          text(`${compiled.document.id} ${compiled.document.title}`),
        ),
      ]),
    },
  ];
};

/** What to write where something on the page is quoted elsewhere: the record, its state, its digest and the day. */
const citationOf = (record: TechnicalRecord, { approvals, project, asOf, origin }: SiteContext): string => {
  const { device } = project.fields;
  const last = approvals
    .of(record.id)
    ?.states.filter((each) => each.state === 'in force')
    .map((each) => each.approval.date)
    .sort()
    .at(-1);
  return [
    `${record.id} ${record.title} (${record.status}${last === undefined ? '' : `, approval of ${last} in force`})`,
    `SHA-256 ${approvals.digests.get(record.id) ?? 'unknown'}`,
    `technical file of ${device.name}${device.code ? ` ${device.code}` : ''}, as of ${asOf}`,
    ...(origin ? [`revision ${origin.commit.slice(0, 12)}${origin.isDirty ? ' with changes' : ''}`] : []),
  ].join('; ');
};

/** The page of one record: what it says, how it stands and why, what shows it, its links, its approvals. */
export const recordPage = (record: TechnicalRecord, context: SiteContext): SitePage => {
  const { graph, standing } = context;
  const type = graph.types.get(record.type);
  const list = context.byType.get(record.type) ?? [];
  const at = list.indexOf(record);
  const neighbour = (other: TechnicalRecord | undefined) =>
    other && { path: context.recordPaths.get(other.id) ?? '', title: `${other.id} ${other.title}` };
  const [before, after] = [neighbour(list[at - 1]), neighbour(list[at + 1])];
  const isDocument = record.type === 'document';
  const isResult = context.evidence.has(record.id);
  const { statement, sections, footnotes } = isDocument
    ? { statement: [], sections: [], footnotes: [] }
    : context.bodyOf(record);
  const state = standing.get(record.id)?.state;
  const verdict = context.evidence.get(record.id)?.verdict;
  const approval = approvalWord(record.id, context);
  const typePath = context.typePaths.get(record.type) ?? 'records.html';
  return {
    path: context.recordPaths.get(record.id) ?? '',
    title: `${record.id} ${record.title}`,
    above: [pageLink(typePath, text(type?.title ?? record.type))],
    marks: [
      [text('status ', { tone: 'quiet' }), mark(record.status)],
      ...(state !== undefined
        ? [[text('stands ', { tone: 'quiet' }), mark(state)]]
        : verdict !== undefined
          ? [[text('verdict ', { tone: 'quiet' }), mark(verdict)]]
          : []),
      [text('approval ', { tone: 'quiet' }), mark(approval)],
    ],
    under: typePath,
    ...(before ? { before } : {}),
    ...(after ? { after } : {}),
    citation: citationOf(record, context),
    footnotes,
    parts: [
      ...(record.sound
        ? []
        : [
            {
              kind: 'site-notice',
              tone: 'bad',
              lines: [
                [text('The front matter does not meet the schema of its type, so nothing here was judged.')],
              ],
            } as const,
          ]),
      ...findingParts(record, context),
      ...verdictParts(record, context),
      ...blocksPart(statement),
      ...documentParts(record, context),
      // What a record claims stands in its fields; what a result is, its data say.
      ...(isResult ? [] : fieldParts(record, context)),
      ...section('standing', 'Standing', isResult ? [] : standingParts(record, context)),
      ...section('evaluation', 'Evaluation', riskParts(record, context)),
      ...section('clauses', 'Clause by clause', clauseParts(record, context)),
      ...showingParts(record, context).flatMap((part) => section('shown-by', 'What shows it', [part])),
      ...section('evidence', 'Evidence', evidenceParts(record, context)),
      ...section('raw-data', 'Raw data', rawParts(record, context)),
      ...(isResult ? section('particulars', 'Particulars', fieldParts(record, context)) : []),
      ...section('text', 'Reasons and remarks', blocksPart(sections)),
      ...section('links', 'Links', linkParts(record, context)),
      ...section('documents', 'Shown in documents', shownInParts(record, context)),
      ...section('approvals', 'Approvals', approvalParts(record, context)),
      ...section('history', 'History', historyParts(record, context)),
    ],
  };
};

/** Every record's page, in order of type and id. */
export function* recordPages(context: SiteContext): Generator<SitePage> {
  for (const records of context.byType.values())
    for (const record of records) yield recordPage(record, context);
}

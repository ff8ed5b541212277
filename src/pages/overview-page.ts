import type { GridRow, SiteInline, SitePage, SitePart } from '../document/site.ts';
import { pullSchedules } from '../evidence/real-time-pulls.ts';
import { countByLevel } from '../findings/order.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';
import { text } from '../views/cells.ts';
import { failedTile, outsideWords, remarkParts } from './overview-remarks.ts';
import { gateParts } from './plan-page.ts';
import {
  allFindings,
  approvalWord,
  filteredTable,
  idAndTitle,
  mark,
  pageLink,
  type SiteContext,
} from './site-context.ts';
import { standsColumn, typeTable } from './type-page.ts';

/** From what is shown to what is not. */
const states = ['passed', 'planned', 'in doubt', 'unplanned', 'failed'] as const;

/** Open things beyond this number are left to their lists. */
const mostOpen = 15;

const mostRecent = 8;

/** Types whose standing answers whether the device is shown, in the order of the design. */
const claims = ['user-need', 'design-input', 'risk', 'risk-control', 'legal-requirement'] as const;

const live = (list: readonly TechnicalRecord[]): readonly TechnicalRecord[] =>
  list.filter((record) => record.status !== 'retired');

const recordsOf = (type: string, context: SiteContext): readonly TechnicalRecord[] =>
  live(context.byType.get(type) ?? []);

const summary = (context: SiteContext): readonly SitePart[] => {
  const rows = claims.flatMap((type) => {
    const about = context.graph.types.get(type);
    const known = recordsOf(type, context).flatMap((record) => context.standing.get(record.id) ?? []);
    if (!about || known.length === 0) return [];
    return [
      {
        title: about.plural,
        path: context.typePaths.get(type) ?? '',
        counts: states.map((state) => ({
          state,
          count: known.filter((each) => each.state === state).length,
          path: filteredTable(context.typePaths.get(type) ?? '', typeTable(type, context), {
            [standsColumn]: [state],
          }),
        })),
      },
    ];
  });
  return rows.length === 0
    ? []
    : [
        {
          kind: 'standing-summary',
          caption: `How far ${rows.map((row) => row.title.toLowerCase()).join(', ')} are shown`,
          rows,
        },
      ];
};

/** Key of the column that holds the state in the table of approvals. */
const approvalState = 'state';

const tiles = (context: SiteContext): SitePart => {
  const shown = (type: string): { readonly passed: number; readonly all: number } => {
    const all = recordsOf(type, context).filter((record) => context.standing.has(record.id));
    return {
      passed: all.filter((record) => context.standing.get(record.id)?.state === 'passed').length,
      all: all.length,
    };
  };
  const tile = (type: string, label: string, path: string, detail?: string) => {
    const { passed, all } = shown(type);
    return {
      value: `${passed} of ${all}`,
      label,
      path,
      ...(detail === undefined ? {} : { detail }),
      tone:
        all === 0
          ? ('quiet' as const)
          : passed === all && detail === undefined && context.unread.length === 0
            ? ('good' as const)
            : ('caution' as const),
    };
  };
  const { error, warning, note } = countByLevel(allFindings(context));
  // Of a file without records, that nothing is wrong says nothing.
  const isEmpty = context.graph.records.size === 0;
  const approvals = [...context.graph.records.values()].filter((record) => record.status !== 'retired');
  const lapsed = approvals.filter((record) => approvalWord(record.id, context) === 'lapsed').length;
  const waiting = approvals.filter((record) => approvalWord(record.id, context) === 'to be signed').length;
  return {
    kind: 'tiles',
    tiles: [
      tile(
        'user-need',
        'user needs shown',
        recordsOf('user-need', context).length === 0
          ? 'matrix.html'
          : (context.typePaths.get('user-need') ?? 'matrix.html'),
      ),
      tile('design-input', 'design inputs shown', 'matrix.html'),
      tile('risk', 'risks controlled and shown', 'risks.html', outsideWords(context)),
      failedTile(context),
      {
        value: String(error + warning + note),
        label: error + warning + note === 1 ? 'finding stands' : 'findings stand',
        ...(error + warning + note === 0
          ? {}
          : {
              detail: `${error} error${error === 1 ? '' : 's'}, ${warning} warning${warning === 1 ? '' : 's'}, ${note} note${note === 1 ? '' : 's'}`,
            }),
        path: 'findings.html',
        tone: error > 0 ? 'bad' : warning + note > 0 ? 'caution' : isEmpty ? 'quiet' : 'good',
      },
      {
        value: String(lapsed + waiting),
        label: lapsed + waiting === 1 ? 'record waits for approval' : 'records wait for approval',
        ...(lapsed > 0 ? { detail: `${lapsed} of them lapsed` } : {}),
        path:
          lapsed + waiting === 0
            ? 'approvals.html'
            : filteredTable('approvals.html', 'approvals', { [approvalState]: ['lapsed', 'to be signed'] }),
        tone: lapsed > 0 ? 'bad' : waiting > 0 ? 'caution' : isEmpty ? 'quiet' : 'good',
      },
    ],
  };
};

/** What is awaited of a question: `the answer to the notified body is due on 2026-12-11`. */
const questionWords = ({ body, due, answered }: RecordOf<'authority-question'>['fields']): string =>
  answered === undefined
    ? `the answer to ${body} is awaited${due === undefined ? '' : `, due on ${due}`}`
    : `answered on ${answered}; ${body} has not closed it`;

const openParts = (context: SiteContext): SitePart => {
  const open = claims
    .flatMap((type) => recordsOf(type, context))
    .flatMap((record) => {
      const known = context.standing.get(record.id);
      return known && known.state !== 'passed' ? [{ record, known }] : [];
    });
  const actions = context.graph
    .recordsOf('design-review')
    .flatMap((review) => (review.fields.actions ?? []).map((action) => ({ review, action })))
    .filter(({ review, action }) => review.status !== 'retired' && action.closed === undefined);
  const questions = context.graph
    .recordsOf('authority-question')
    .filter(({ status, fields }) => status !== 'retired' && fields.closed === undefined);
  const deviations = context.graph
    .recordsOf('deviation')
    .filter(
      ({ status, fields }) => status !== 'retired' && !(fields.closed && fields.closed <= context.asOf),
    );
  const pulls = pullSchedules(context.graph).flatMap(({ owner, pulls: all, tests }) =>
    all
      .filter(({ months }) => !tests.some((record) => record.fields.real_time_pull?.months === months))
      .flatMap((pull) => {
        const record = context.graph.record(owner);
        return record ? [{ record, pull }] : [];
      }),
  );
  const rows: readonly GridRow[] = [
    ...open.map(
      ({ record, known }): GridRow => ({
        cells: [
          idAndTitle(record),
          [mark(known.state)],
          [
            text(`${known.reason}. `),
            ...(known.because.length > 1
              ? known.because.flatMap((id, index): readonly SiteInline[] => [
                  ...(index === 0 ? [] : [text(' → ')]),
                  { kind: 'record-reference', id },
                ])
              : []),
          ],
        ],
      }),
    ),
    ...questions.map(
      (question): GridRow => ({
        cells: [
          idAndTitle(question),
          [
            question.fields.answered !== undefined
              ? text('answered')
              : mark(
                  question.fields.due !== undefined && question.fields.due < context.asOf
                    ? 'overdue'
                    : 'open',
                ),
          ],
          [text(questionWords(question.fields))],
        ],
      }),
    ),
    ...deviations.map(
      (deviation): GridRow => ({
        cells: [idAndTitle(deviation), [mark('open')], [text('the deviation is not closed')]],
      }),
    ),
    ...pulls.map(
      ({ record, pull }): GridRow => ({
        cells: [
          idAndTitle(record),
          [mark(pull.due < context.asOf ? 'overdue' : 'planned')],
          [text(`the pull after ${pull.months} months is due on ${pull.due}`)],
        ],
      }),
    ),
    ...actions.map(
      ({ review, action }): GridRow => ({
        cells: [
          idAndTitle(review),
          [mark(action.due < context.asOf ? 'overdue' : 'open')],
          [text(`${action.action} (${action.owner}, due ${action.due})`)],
        ],
      }),
    ),
  ];
  return {
    kind: 'section',
    id: 'open',
    title: 'What is open',
    parts: [
      ...(rows.length > mostOpen
        ? [
            {
              kind: 'words',
              look: 'quiet',
              children: [
                text(`The first ${mostOpen} of ${rows.length}. The lists of each kind have all of them.`),
              ],
            } as const,
          ]
        : []),
      {
        kind: 'grid',
        id: 'open',
        caption:
          'Claims that are not shown, and questions, deviations, pulls and actions that are not closed',
        isPlain: true,
        whenEmpty:
          context.graph.records.size === 0
            ? 'There are no records yet.'
            : 'Every need, input, risk, control and requirement is shown, and no question, deviation, pull or action is open.',
        columns: [
          { title: 'Record', width: 36 },
          { title: 'Stands', width: 14 },
          { title: 'Why', width: 50 },
        ],
        rows: rows.slice(0, mostOpen),
      },
    ],
  };
};

const documentParts = (context: SiteContext): readonly SitePart[] => {
  const whole = context.documents.filter((compiled) => compiled.each === undefined);
  const copies = context.documents.length - whole.length;
  if (context.documents.length === 0) return [];
  return [
    {
      kind: 'section',
      id: 'documents',
      title: 'Documents',
      parts: [
        {
          kind: 'grid',
          id: 'overview-documents',
          caption: 'Documents compiled from the records',
          isPlain: true,
          whenEmpty: '',
          columns: [
            { title: 'Document', width: 44 },
            { title: 'Number', width: 18 },
            { title: 'Revision', width: 10 },
            { title: 'Status', width: 14 },
            { title: 'Approval', width: 14 },
          ],
          rows: whole.map((compiled) => ({
            cells: [
              [pageLink(context.documentPaths.get(compiled) ?? '', text(compiled.document.title))],
              [text(compiled.document.number)],
              [text(compiled.document.revision)],
              [mark(compiled.document.status)],
              [mark(approvalWord(compiled.record.id, context))],
            ],
          })),
        },
        ...(copies > 0
          ? [
              {
                kind: 'words',
                look: 'quiet',
                children: [
                  text(`And ${copies} written for one record each: `),
                  pageLink('documents.html', text('all documents')),
                  text('.'),
                ],
              } as const,
            ]
          : []),
      ],
    },
  ];
};

const recentParts = (context: SiteContext): readonly SitePart[] => {
  const signed = [...context.approvals.all.values()]
    .flatMap(({ record, states: list }) =>
      list.filter(({ state }) => state !== 'replaced').map((state) => ({ record, ...state })),
    )
    .sort((a, b) => (a.approval.date < b.approval.date ? 1 : a.approval.date > b.approval.date ? -1 : 0));
  if (signed.length === 0) return [];
  return [
    {
      kind: 'section',
      id: 'recent',
      title: 'Approved last',
      parts: [
        {
          kind: 'grid',
          id: 'recent',
          caption: 'The latest approvals',
          isPlain: true,
          whenEmpty: '',
          columns: [
            { title: 'Date', width: 12 },
            { title: 'Record', width: 44 },
            { title: 'Meaning', width: 28 },
            { title: 'State', width: 16 },
          ],
          rows: signed.slice(0, mostRecent).map(({ record, approval, state }) => ({
            cells: [
              [text(approval.date)],
              idAndTitle(record),
              [text(`${approval.meaning}, ${approval.role}`)],
              [mark(state)],
            ],
          })),
        },
      ],
    },
  ];
};

/** The first page: how the file stands, what is open, its documents. */
export const overviewPage = (context: SiteContext): SitePage => {
  const { device } = context.project.fields;
  const purpose = context.project.fields.phrases?.['intended_purpose'];
  return {
    path: 'index.html',
    title: device.code ? `${device.name} ${device.code}` : device.name,
    above: [text(`Technical file of ${device.maker}, as of ${context.asOf}`)],
    under: 'index.html',
    parts: [
      ...(typeof purpose === 'string'
        ? [{ kind: 'words', look: 'lead', children: [text(purpose)] } as const]
        : []),
      tiles(context),
      ...summary(context),
      remarkParts(context),
      ...gateParts(context),
      openParts(context),
      ...documentParts(context),
      ...recentParts(context),
    ],
  };
};

/** Records whose approval is missing or has lapsed. */
export const approvalsPage = (context: SiteContext): SitePage => ({
  path: 'approvals.html',
  title: 'Approvals',
  under: 'approvals.html',
  parts: [
    {
      kind: 'words',
      look: 'lead',
      children: [
        text(
          'An approval holds the digest of what was approved and of what that relies on. When either changes, it has lapsed.',
        ),
      ],
    },
    {
      kind: 'grid',
      id: 'approvals',
      caption: 'Approvals by record and role',
      whenEmpty: 'Nothing is approved yet, and no role is asked for.',
      columns: [
        { title: 'Record', width: 32 },
        { title: 'Kind', width: 14, isChoice: true, isSpare: true },
        { title: 'Role', width: 14, isChoice: true },
        { title: 'Name', width: 14, isChoice: true },
        { title: 'Meaning', width: 18 },
        { title: 'Date', width: 17 },
        { title: 'State', key: approvalState, width: 20, isChoice: true },
      ],
      rows: [...context.approvals.all.values()]
        .filter(({ record }) => record.status !== 'retired')
        .flatMap(({ record, states: list, missingRoles }): readonly GridRow[] => {
          const kind = context.graph.types.get(record.type)?.title ?? record.type;
          return [
            ...list
              .filter(({ state }) => state !== 'replaced')
              .map(
                ({ approval, state }): GridRow => ({
                  cells: [
                    idAndTitle(record),
                    [text(kind)],
                    [text(approval.role)],
                    [text(approval.name)],
                    [text(approval.meaning)],
                    [text(approval.date)],
                    [mark(state)],
                  ],
                }),
              ),
            ...missingRoles.map(
              (role): GridRow => ({
                cells: [
                  idAndTitle(record),
                  [text(kind)],
                  [text(role)],
                  [text('–')],
                  [text('–')],
                  [text('–')],
                  [mark('to be signed')],
                ],
              }),
            ),
          ];
        }),
    },
  ],
});

import type { SitePage, SitePart } from '../document/site.ts';
import { text } from '../views/cells.ts';
import { idList } from '../views/risk-words.ts';
import { approvalWord, idAndTitle, mark, pageLink, type SiteContext } from './site-context.ts';

/** Design changes, failures and what was decided on them, reviews and their actions; the impact of a change where one was compared. */
export const changePage = (context: SiteContext, impactPath?: string): SitePage => {
  const { graph, evidence } = context;
  const live = <T extends { readonly status: string }>(list: readonly T[]): readonly T[] =>
    list.filter((record) => record.status !== 'retired');
  const failed = [...evidence.values()].filter((result) => result.verdict !== 'pass');
  const actions = live(graph.recordsOf('design-review')).flatMap((review) =>
    (review.fields.actions ?? []).map((action) => ({ review, action })),
  );
  const parts: readonly SitePart[] = [
    {
      kind: 'words',
      look: 'lead',
      children: [text('What was changed and why, what failed and what followed, what reviews asked for.')],
    },
    ...(impactPath === undefined
      ? []
      : [
          {
            kind: 'words',
            children: [
              pageLink(impactPath, text('What changed since an earlier state, and what that puts in doubt')),
            ],
          } as const,
        ]),
    {
      kind: 'grid',
      id: 'design-changes',
      caption: 'Design changes',
      isPlain: true,
      whenEmpty: 'No design change is recorded.',
      columns: [
        { title: 'Change', width: 22 },
        { title: 'Decided', width: 10 },
        { title: 'Significance', width: 40 },
        { title: 'Affected', width: 18 },
        { title: 'Approval', width: 10 },
      ],
      rows: live(graph.recordsOf('design-change')).map((change) => ({
        cells: [
          idAndTitle(change),
          [text(change.fields.date)],
          [text(change.fields.significance)],
          idList(change.fields.affected ?? [], '–'),
          [mark(approvalWord(change.id, context))],
        ],
      })),
    },
    {
      kind: 'grid',
      id: 'failed-results',
      caption: 'Results that did not pass',
      isPlain: true,
      whenEmpty: 'Every result passed.',
      columns: [
        { title: 'Result', width: 30 },
        { title: 'Verdict', width: 12 },
        { title: 'Why', width: 34 },
        { title: 'What followed', width: 24 },
      ],
      rows: failed.flatMap((result) => {
        const record = graph.record(result.record);
        if (!record) return [];
        const followed = [
          ...graph.linksTo(record.id, 'retests').map((link) => link.from),
          ...graph.linksTo(record.id, 'against').map((link) => link.from),
          ...graph.linksTo(record.id, 'decisions').map((link) => link.from),
        ];
        return [
          {
            cells: [
              idAndTitle(record),
              [mark(result.verdict)],
              [text(result.reason)],
              idList([...new Set(followed)], 'nothing yet'),
            ],
          },
        ];
      }),
    },
    {
      kind: 'grid',
      id: 'deviations',
      caption: 'Deviations',
      isPlain: true,
      whenEmpty: 'No deviation is recorded.',
      columns: [
        { title: 'Deviation', width: 40 },
        { title: 'Against', width: 20 },
        { title: 'Status', width: 16 },
        { title: 'Approval', width: 24 },
      ],
      rows: live(graph.recordsOf('deviation')).map((deviation) => ({
        cells: [
          idAndTitle(deviation),
          idList(
            graph.linksFrom(deviation.id, 'against').map((link) => link.to),
            '–',
          ),
          [mark(deviation.status)],
          [mark(approvalWord(deviation.id, context))],
        ],
      })),
    },
    {
      kind: 'grid',
      id: 'actions',
      caption: 'Actions of design reviews',
      whenEmpty: 'No review asked for an action.',
      columns: [
        { title: 'Action', width: 40 },
        { title: 'Owner', width: 16, isChoice: true },
        { title: 'Due', width: 12 },
        { title: 'State', width: 12, isChoice: true },
        { title: 'Review', width: 24 },
      ],
      rows: actions.map(({ review, action }) => ({
        cells: [
          [text(action.action)],
          [text(action.owner)],
          [text(action.due)],
          [
            action.closed === undefined
              ? mark(action.due < context.asOf ? 'overdue' : 'open')
              : mark('closed'),
            ...(action.closed === undefined ? [] : [text(` ${action.closed}`)]),
          ],
          idAndTitle(review),
        ],
      })),
    },
  ];
  return { path: 'changes.html', title: 'Changes and reviews', under: 'changes.html', parts };
};

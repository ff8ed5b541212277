import { describeContentChange } from '../change/describe-content-change.ts';
import type { RelatedPlace } from '../findings/finding.ts';
import type { ApprovalState } from '../graph/approvals.ts';
import { approveCommand, onlyRole } from '../graph/approve-command.ts';
import { lapsedBecauseOf, relyingOnOlder } from '../graph/lapsed-approvals.ts';
import { wordingOfKey } from '../graph/wording-digests.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

const named = (id: string, states: readonly ApprovalState[]): string =>
  `the approval of ${id} by ${states.map(({ approval }) => `${approval.role} of ${approval.date}`).join(' and by ')}`;

/** What changed in a record since the content with a digest; nothing where that content is not known. */
const sinceThen = (
  id: string,
  digest: string | undefined,
  context: CheckContext,
): readonly RelatedPlace[] => {
  const then = digest === undefined ? undefined : context.past?.get(digest);
  const now = context.graph.record(id);
  return then && now ? describeContentChange(then, now, context.graph.types.get(now.type)?.informative) : [];
};

/** The present content of records, by the start of their digests. */
const contentOf = (ids: readonly string[], { approvals }: CheckContext): string =>
  ids.map((id) => approvals.digests.get(id)?.slice(0, 12) ?? 'none').join(' ');

/** The record itself changed: one finding that tells of all who rely on it. */
const changedItself = (
  record: TechnicalRecord,
  lapsed: readonly ApprovalState[],
  context: CheckContext,
): Draft => {
  const { graph, approvals } = context;
  const differences = sinceThen(record.id, lapsed[0]?.approval.digest, context);
  const relying = relyingOnOlder(graph, approvals, record.id);
  const ids = relying.map((each) => each.id);
  return {
    // Where the history shows what changed, the finding stands on that line.
    place: differences[0]?.place ?? placeOf(record, 'approvals', lapsed[0]?.index ?? 0, 'digest'),
    message: `${named(record.id, lapsed)} lapsed: its content changed since${ids.length > 0 ? `; in doubt: ${ids.join(', ')}` : ''}`,
    hint: `Judge what the change means${ids.length > 0 ? ' for each record in doubt' : ''}, then approve ${[record.id, ...ids].join(', ')} again (${approveCommand(['--because', record.id], onlyRole([...lapsed, ...relying.map((each) => each.state)].map((state) => state.approval.role)))}), or take the change back.`,
    records: [record.id, ...ids],
    related: [
      ...differences,
      ...relying.flatMap(({ id, state }) => {
        const other = graph.record(id);
        return other
          ? [
              {
                place: placeOf(other, 'approvals', state.index, 'relies_on', record.id),
                message: `${id} relies on the older ${record.id}`,
              },
            ]
          : [];
      }),
    ],
    // By their content as well: what changes again is a new finding.
    data: { in_doubt: ids, content: contentOf([record.id], context) },
  };
};

/** The record is as approved, but not what it relies on; what is itself lapsed tells of this record in its own finding. */
const reliesOnOlder = (record: TechnicalRecord, context: CheckContext): readonly Draft[] => {
  const { graph, approvals } = context;
  const changed = (approvals.of(record.id)?.changed ?? []).filter((id) => {
    const other = graph.record(id);
    return other === undefined
      ? wordingOfKey(id) !== undefined
      : other.status === 'retired' || lapsedBecauseOf(approvals, id, id).length === 0;
  });
  const first = changed[0];
  const lapsed = first === undefined ? [] : lapsedBecauseOf(approvals, record.id, first);
  if (first === undefined || lapsed[0] === undefined) return [];
  const names = changed.join(', ');
  return [
    {
      place: placeOf(record, 'approvals', lapsed[0].index, 'relies_on', first),
      message: `${named(record.id, lapsed)} lapsed: it relies on older content of ${names}`,
      hint: `Judge whether ${record.id} still holds with ${names} as it is now, then approve ${record.id} again (${approveCommand([record.id], onlyRole(lapsed.map((state) => state.approval.role)))}).`,
      records: [record.id, ...changed.filter((id) => graph.record(id))],
      related: changed.flatMap((id) => {
        const other = graph.record(id);
        const wording = wordingOfKey(id);
        if (wording !== undefined && !other)
          return [
            {
              place: context.project.yaml.place(['phrases', wording]),
              message: `the wording "${wording}" changed`,
            },
          ];
        if (!other) return [];
        const differences = sinceThen(id, lapsed[0]?.approval.relies_on?.[id], context);
        return differences.length > 0
          ? differences
          : [{ place: placeOf(other, 'id'), message: `${id} changed` }];
      }),
      data: { changed, content: contentOf(changed, context) },
    },
  ];
};

export const approvalLapsed = defineCheck({
  code: 'approval-lapsed',
  level: 'error',
  title: 'An approval no longer covers the content',
  basis: 'ISO 13485:2016 4.2.4 and 7.3.9',
  explain:
    'An approval stores the digest of what was approved, and of each record that it relied on. The content is another one now, so nobody has approved what the file says today. Where the record itself changed, the finding lists the records whose approvals rely on the older content: they are in doubt until somebody has judged them. A document relies on the claims and wordings that its sentences take in; `phrases.storage` stands for the wording `storage` of plinth.yaml.\n\nA test of an earlier design says nothing certain about the present one. If a drawing changes quietly after its verification, a part that was never shown to hold may reach a patient, with every page around it signed.\n\nLook at what changed, judge what it means for the record and for each one in doubt (repeat the test, or write down why it still holds), and approve them again: `plinth approve --because ID` takes all that lapsed because of one record, and `--no-effect REASON` writes down why a change such as a mended spelling has no technical effect. If the change was a slip, take it back and the approval is in force as before.',
  examines: 'records with approvals',
  subjects: ({ graph, approvals }) =>
    [...graph.records.values()].filter(
      (record) => record.status !== 'retired' && (approvals.of(record.id)?.states.length ?? 0) > 0,
    ),
  judge: (record, context) => {
    const own = lapsedBecauseOf(context.approvals, record.id, record.id);
    return own.length > 0 ? [changedItself(record, own, context)] : reliesOnOlder(record, context);
  },
});

import { contentChangeWords } from '../change/describe-content-change.ts';
import type { Block, Inline, Row } from '../document/model.ts';
import type { Approval } from '../graph/approvals.ts';
import { approvalKey, type RecordState } from '../graph/record-history.ts';
import { nearestName } from '../records/nearest-name.ts';
import { cell, notice, onLines, reference, text } from './cells.ts';
import { type CommonOptions, captionOf, type View, type ViewContext, type ViewProblem } from './view.ts';

interface Options extends CommonOptions {
  readonly of?: readonly string[];
}

const mostDifferences = 6;

const approvalsOf = (state: RecordState | undefined): readonly Approval[] =>
  state?.record.sound ? ((state.record.fields['approvals'] ?? []) as readonly Approval[]) : [];

const revisionOf = (state: RecordState): string => {
  const revision = state.record.fields['revision'];
  return typeof revision === 'string' || typeof revision === 'number' ? String(revision) : '';
};

/** What one commit did to a record, a line each. */
const eventLines = (
  state: RecordState,
  before: RecordState | undefined,
  { graph, histories }: ViewContext,
): readonly (readonly Inline[])[] => {
  const known = new Set(approvalsOf(before).map(approvalKey));
  const informative = graph.types.get(state.record.type)?.informative;
  const differences =
    before && before.digest !== state.digest
      ? contentChangeWords(before.record, state.record, informative)
      : [];
  const isCut = histories?.known === true && histories.cutAt.has(state.commit.id);
  return [
    ...(before ? [] : [[text(isCut ? 'as it was where the history at hand begins' : 'first written')]]),
    ...(before && before.record.status !== state.record.status
      ? [[text(`status ${before.record.status} → ${state.record.status}`)]]
      : []),
    ...differences.slice(0, mostDifferences).map((words) => [text(words)]),
    ...(differences.length > mostDifferences
      ? [[text(`and ${differences.length - mostDifferences} more differences`)]]
      : []),
    ...approvalsOf(state)
      .filter((approval) => !known.has(approvalKey(approval)))
      .map((approval) => [
        text(`${approval.meaning}: ${approval.role}, ${approval.name}, ${approval.date}`, { bold: true }),
      ]),
  ];
};

const rowsFor = (id: string, withId: boolean, context: ViewContext): readonly Row[] => {
  const states = context.histories?.known === true ? context.histories.of(id) : [];
  return states.flatMap((state, index): readonly Row[] => {
    const lines = eventLines(state, states[index - 1], context);
    // A commit that touched only the layout of the file tells a reader nothing.
    if (lines.length === 0) return [];
    return [
      {
        cells: [
          ...(withId ? [cell(reference(id))] : []),
          cell(text(revisionOf(state))),
          cell(text(state.commit.date)),
          cell(
            ...onLines([
              [text(state.commit.author)],
              [text(state.commit.id.slice(0, 12), { tone: 'quiet' })],
            ]),
          ),
          cell(...onLines([[text(state.commit.subject, { italic: true })], ...lines])),
        ],
      },
    ];
  });
};

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const ids = options.of ?? [context.document.id];
  const problems = ids.flatMap((id, index): readonly ViewProblem[] => {
    if (context.graph.record(id)) return [];
    const near = nearestName(id, [...context.graph.records.keys()]);
    return [
      {
        path: ['of', index],
        message: `there is no record ${id}`,
        hint: near ? `Did you mean ${near}?` : 'Name a record of the technical file.',
      },
    ];
  });
  if (problems.length > 0) return { blocks: [], problems };
  const { histories } = context;
  if (histories?.known !== true)
    return {
      blocks: [
        notice(`The history is not at hand: ${histories?.reason ?? 'nobody looked into git'}.`, 'caution'),
      ],
    };
  const withId = ids.length > 1 || options.of !== undefined;
  const rows = ids.flatMap((id) => rowsFor(id, withId, context));
  if (rows.length === 0) return { blocks: [notice('No commit holds the record yet.')] };
  const table: Block = {
    kind: 'table',
    ...captionOf(options),
    columns: [
      ...(withId ? [{ title: 'Record', width: 10 }] : []),
      { title: 'Revision', width: 9 },
      { title: 'Date', width: 12 },
      { title: 'Committed by', width: 20 },
      { title: 'What changed', width: 49 },
    ],
    rows,
    description: 'Commits that changed the records, oldest first.',
  };
  const isCut = ids.some((id) => histories.of(id).some(({ commit }) => histories.cutAt.has(commit.id)));
  return {
    blocks: [
      table,
      ...(isCut
        ? [notice('The clone holds only part of the history: earlier changes are not listed.', 'caution')]
        : []),
    ],
  };
};

/** Revision history of records, from git: when, by whom, what changed and who approved it. */
export const revisionHistoryView: View = { name: 'revision-history', draw };

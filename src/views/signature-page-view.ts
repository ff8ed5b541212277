import type { Block, Cell } from '../document/model.ts';
import { requiredRoles } from '../graph/approvals.ts';
import { nearestName } from '../records/nearest-name.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { cell, nothing, notice, onLines, text } from './cells.ts';
import type { View, ViewContext, ViewProblem } from './view.ts';

interface Options {
  readonly of: readonly string[];
}

/** A field to be filled in by hand. */
const blank = (lines = 1): Cell => cell(...onLines(Array.from({ length: lines }, () => [text('\u00a0')])));

/** One page: what is signed, to the digest, and a row for each role. */
const page = (record: TechnicalRecord, context: ViewContext): readonly Block[] => {
  const { approvals, graph, project, enclosingLevel } = context;
  const type = graph.types.get(record.type);
  const revision = record.fields['revision'];
  const states = approvals.of(record.id)?.states ?? [];
  const current = states.filter((state) => state.state !== 'replaced');
  const earlier = (role: string): readonly string[] =>
    states
      .filter((each) => each.state === 'replaced' && each.approval.role === role)
      .map((each) => each.approval.date)
      .sort()
      .reverse();
  const roles = [
    ...new Set([...requiredRoles(project.fields, record.type), ...current.map((each) => each.approval.role)]),
  ];
  return [
    {
      kind: 'heading',
      level: Math.min(6, enclosingLevel + 1) as 1 | 2 | 3 | 4 | 5 | 6,
      children: [text(`${record.id} ${record.title}`)],
      recordId: record.id,
    },
    {
      kind: 'particulars',
      entries: [
        { name: 'Record', value: [text(`${record.id}, ${type?.title.toLowerCase() ?? record.type}`)] },
        ...(revision === undefined ? [] : [{ name: 'Revision', value: [text(String(revision))] }]),
        { name: 'Status', value: [text(record.status)] },
        { name: 'File', value: [text(record.file, { code: true })] },
        {
          name: 'Digest of the content (SHA-256)',
          value: [text(approvals.digests.get(record.id) ?? '', { code: true })],
        },
      ],
    },
    {
      kind: 'table',
      caption: `Signatures for ${record.id}`,
      columns: [
        { title: 'Role', width: 14 },
        { title: 'Name in print', width: 17 },
        { title: 'Meaning', width: 18 },
        { title: 'Approval recorded', width: 17 },
        { title: 'Date of signature', width: 14 },
        { title: 'Signature', width: 20 },
      ],
      rows: roles.map((role) => {
        const state = current.find((each) => each.approval.role === role);
        return {
          cells: [
            cell(text(role)),
            state ? cell(text(state.approval.name)) : blank(3),
            state ? cell(text(state.approval.meaning)) : blank(3),
            state
              ? cell(
                  ...onLines([
                    [text(state.approval.date)],
                    [text(state.state, { tone: state.state === 'lapsed' ? 'bad' : 'quiet' })],
                    ...earlier(role).map((date) => [text(`earlier: ${date}`, { tone: 'quiet' })]),
                  ]),
                )
              : cell(nothing('not yet')),
            // Whoever signs by hand writes the day on which the hand signs, whatever day the record holds.
            blank(3),
            blank(3),
          ],
        };
      }),
    },
    {
      kind: 'particulars',
      entries: [
        {
          name: 'SHA-256 of the scan of this page',
          value: current.some((each) => each.approval.scan_sha256 !== undefined)
            ? onLines(
                current.flatMap(({ approval }) =>
                  approval.scan_sha256 === undefined
                    ? []
                    : [[text(`${approval.role}: `), text(approval.scan_sha256, { code: true })]],
                ),
              )
            : [
                nothing(
                  'known once the page is signed and scanned; it is then kept with the approval in the record',
                ),
              ],
        },
      ],
    },
  ];
};

const draw: View['draw'] = (body, context) => {
  const { of } = body as unknown as Options;
  const problems = of.flatMap((id, index): readonly ViewProblem[] => {
    if (context.graph.record(id)?.sound) return [];
    const near = nearestName(id, [...context.graph.records.keys()]);
    return [
      {
        path: ['of', index],
        message: `there is no sound record ${id}`,
        hint: near && near !== id ? `Did you mean ${near}?` : 'Name a record that meets its schema.',
      },
    ];
  });
  if (problems.length > 0) return { blocks: [], problems };
  return {
    blocks: [
      notice(
        'By signing, a person confirms having approved the content with the digest that stands on the page. The check of the technical file tells whether the record still has that content. A commit in git is not by itself a signature.',
      ),
      ...of.flatMap((id, index): readonly Block[] => {
        const record = context.graph.record(id);
        if (!record) return [];
        return [...(index > 0 ? [{ kind: 'page-break' } as const] : []), ...page(record, context)];
      }),
    ],
  };
};

/** Pages to be signed by hand, with the digest of what is signed and a field for the digest of the scan. */
export const signaturePageView: View = { name: 'signature-page', draw, namesOnly: true };

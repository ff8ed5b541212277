import type { Inline } from '../document/model.ts';
import { type Claim, claims, states } from '../evidence/claims.ts';
import { withUnit } from '../records/units.ts';
import { cell, notice, onLines, orNothing, reference, standingText, text, verdictText } from './cells.ts';
import { type CommonOptions, captionOf, type View, type ViewContext } from './view.ts';

const places = (claim: Claim, { graph }: ViewContext): readonly Inline[] =>
  onLines(
    (claim.fields.stated_in ?? []).map((id) => {
      const record = graph.record(id);
      return record && states(record, claim, graph)
        ? [reference(id)]
        : [reference(id), text(': not found', { tone: 'bad' as const, bold: true })];
    }),
  );

const limits = (claim: Claim): readonly Inline[] =>
  onLines(
    (claim.fields.limits ?? []).map((limit, index) => {
      const written = (bound: 'lower' | 'upper'): string | undefined =>
        limit[bound] === undefined
          ? undefined
          : String(claim.yaml.written(['limits', index, bound]) ?? limit[bound]);
      const [lower, upper] = [written('lower'), written('upper')];
      const range =
        lower === undefined
          ? `at most ${upper}`
          : upper === undefined
            ? `at least ${lower}`
            : `${lower} to ${upper}`;
      const condition = limit.conditions === undefined ? '' : ` (${limit.conditions.join(', ')})`;
      return [text(`${limit.characteristic}: ${withUnit(range, limit.unit ?? '1')}${condition}`)];
    }),
  );

const evidence = (claim: Claim, { graph, evidence: results, standing }: ViewContext): readonly Inline[] =>
  onLines(
    (claim.fields.evidence ?? []).map((id) => {
      const verdict = results.get(id)?.verdict;
      const state = standing.get(id)?.state;
      return [
        reference(id),
        text(` ${graph.record(id)?.title ?? ''}`),
        ...(verdict !== undefined
          ? [text(': '), verdictText(verdict)]
          : state !== undefined
            ? [text(': '), standingText(state)]
            : []),
      ];
    }),
  );

const words = (claim: Claim): readonly Inline[] =>
  onLines([
    ...(claim.fields.words ?? []).map(({ word, reason, compared_with: other }) => [
      text(`"${word}"${other === undefined ? '' : `, compared with ${other}`}: ${reason}`),
    ]),
    ...(claim.fields.note === undefined ? [] : [[text(claim.fields.note)]]),
  ]);

const draw: View['draw'] = (body, context) => {
  const listed = claims(context.graph);
  if (listed.length === 0) return { blocks: [notice('There are no claims yet.')] };
  return {
    blocks: [
      {
        kind: 'table',
        ...captionOf(body as CommonOptions),
        columns: [
          { title: 'Claim', width: 10 },
          { title: 'Wording', width: 36 },
          { title: 'Stated in', width: 14 },
          { title: 'In numbers', width: 34 },
          { title: 'Evidence', width: 40 },
          { title: 'Standing', width: 12 },
          { title: 'Words and notes', width: 30 },
        ],
        rows: listed.map((claim) => ({
          recordId: claim.id,
          cells: [
            cell(reference(claim.id)),
            cell(text(claim.fields.wording)),
            cell(...orNothing(places(claim, context), 'nowhere')),
            cell(...orNothing(limits(claim), 'no numbers')),
            cell(...orNothing(evidence(claim, context))),
            cell(standingText(context.standing.get(claim.id)?.state ?? 'unplanned')),
            cell(...orNothing(words(claim))),
          ],
        })),
        description:
          'Each row is one statement about the device: where users read it, what it says in numbers, and the evidence that bears it.',
      },
    ],
  };
};

export const claimsView: View = { name: 'claims', draw };

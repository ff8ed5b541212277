import type { GridRow, SitePart, Tiles } from '../document/site.ts';
import { type ResidualRisk, residualRisk } from '../evidence/residual-risk.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';
import { text } from '../views/cells.ts';
import { evaluationWords } from '../views/risk-words.ts';
import { idAndTitle, mark, type SiteContext } from './site-context.ts';

/** Where the first page names what its counts leave out. */
export const remarksPlace = 'remarks';

type Outside = Extract<ResidualRisk, { readonly kind: 'accepted by decision' | 'not accepted' }>;

interface RiskOutside {
  readonly risk: RecordOf<'risk'>;
  readonly outcome: Outside;
}

interface FailedResult {
  readonly record: TechnicalRecord;
  readonly reason: string;
  /** The approved result that repeated it; undefined where none did. */
  readonly repeatedBy?: string;
}

/** Risks that are not within the criteria after control, whether people accepted them or not. */
export const risksOutside = ({
  graph,
  approvals,
  project,
}: Pick<SiteContext, 'graph' | 'approvals' | 'project'>): readonly RiskOutside[] =>
  graph
    .recordsOf('risk')
    .filter((risk) => risk.status !== 'retired')
    .flatMap((risk) => {
      const outcome = residualRisk(risk, graph, approvals, project.fields);
      return outcome.kind === 'accepted by decision' || outcome.kind === 'not accepted'
        ? [{ risk, outcome }]
        : [];
    });

/** Results whose data fail their acceptance, also those that were repeated. */
export const failedResults = ({
  graph,
  evidence,
}: Pick<SiteContext, 'graph' | 'evidence'>): readonly FailedResult[] =>
  [...graph.records.values()].flatMap((record) => {
    const result = evidence.get(record.id);
    if (result?.verdict !== 'fail') return [];
    const repeatedBy = graph
      .linksTo(record.id, 'retests')
      .find(({ from }) => graph.record(from)?.status === 'approved')?.from;
    return [{ record, reason: result.reason, ...(repeatedBy === undefined ? {} : { repeatedBy }) }];
  });

/** Of the risks that are shown, how many the criteria do not accept by themselves; undefined where there is none. */
export const outsideWords = (context: SiteContext): string | undefined => {
  const outside = risksOutside(context);
  if (outside.length === 0) return undefined;
  const open = outside.filter(({ outcome }) => outcome.kind === 'not accepted').length;
  return `${outside.length} not within the criteria after control${open === 0 ? ', accepted by decision' : `, ${open} without a decision`}`;
};

/** How many results failed, and whether all were repeated. */
export const failedTile = (context: SiteContext): Tiles['tiles'][number] => {
  const failed = failedResults(context);
  const open = failed.filter(({ repeatedBy }) => repeatedBy === undefined).length;
  return {
    value: String(failed.length),
    label: failed.length === 1 ? 'result failed' : 'results failed',
    ...(failed.length === 0
      ? {}
      : {
          detail:
            open === 0 ? 'repeated since' : open === failed.length ? 'not repeated' : `${open} not repeated`,
        }),
    path: `index.html#${remarksPlace}`,
    tone: open > 0 ? 'bad' : failed.length > 0 ? 'caution' : 'good',
  };
};

/** What the counts above leave out: accepted risks outside of the criteria, and results that failed. */
export const remarkParts = (context: SiteContext): SitePart => {
  const rows: readonly GridRow[] = [
    ...risksOutside(context).map(
      ({ risk, outcome }): GridRow => ({
        cells: [
          idAndTitle(risk),
          evaluationWords(risk, 'after', context.view),
          outcome.kind === 'accepted by decision'
            ? [text('accepted by '), { kind: 'record-reference', id: outcome.decision }]
            : [text('no decision in force', { tone: 'bad' })],
        ],
      }),
    ),
    ...failedResults(context).map(
      ({ record, reason, repeatedBy }): GridRow => ({
        cells: [
          idAndTitle(record),
          [mark('fail'), text(` ${reason}`)],
          repeatedBy === undefined
            ? [text('not repeated', { tone: 'bad' })]
            : [text('repeated by '), { kind: 'record-reference', id: repeatedBy }],
        ],
      }),
    ),
  ];
  return {
    kind: 'section',
    id: remarksPlace,
    title: 'What the counts leave out',
    parts: [
      {
        kind: 'grid',
        id: remarksPlace,
        caption: 'Risks that are not within the criteria after control, and results that failed',
        isPlain: true,
        whenEmpty: 'No risk lies outside of the criteria after control, and no result failed.',
        columns: [
          { title: 'Record', width: 36 },
          { title: 'What stands there', width: 40 },
          { title: 'What was done', width: 24 },
        ],
        rows,
      },
    ],
  };
};

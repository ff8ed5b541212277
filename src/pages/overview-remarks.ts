import type { GridRow, SitePart, Tiles } from '../document/site.ts';
import { type ResidualRisk, residualRisk } from '../evidence/residual-risk.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';
import { text } from '../views/cells.ts';
import { evaluationWords } from '../views/risk-words.ts';
import { idAndTitle, mark, pageLink, type SiteContext } from './site-context.ts';

/** Where the first page names what its counts leave out. */
export const remarksPlace = 'remarks';

type Outside = Exclude<ResidualRisk, { readonly kind: 'acceptable' }>;

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

/** Risks that are not within the criteria after control, whether people accepted them or not, or that nobody could judge. */
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
      return outcome.kind === 'acceptable' ? [] : [{ risk, outcome }];
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
  const count = (kind: Outside['kind']): number =>
    outside.filter(({ outcome }) => outcome.kind === kind).length;
  const [accepted, open, unknown] = [
    count('accepted by decision'),
    count('not accepted'),
    count('not estimated'),
  ];
  const words = [
    ...(accepted + open === 0
      ? []
      : [
          `${accepted + open} not within the criteria after control${open === 0 ? ', accepted by decision' : `, ${open} without a decision`}`,
        ]),
    ...(unknown === 0 ? [] : [`${unknown} without an estimate or without criteria`]),
  ];
  return words.length === 0 ? undefined : words.join('; ');
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
    tone: open > 0 ? 'bad' : failed.length > 0 ? 'caution' : context.evidence.size === 0 ? 'quiet' : 'good',
  };
};

/** What the counts above leave out: accepted risks outside of the criteria, and results that failed. */
export const remarkParts = (context: SiteContext): SitePart => {
  const rows: readonly GridRow[] = [
    ...context.unread.map(
      ({ id, file }): GridRow => ({
        cells: [
          [text(id)],
          [text(`${file} cannot be read as a record`, { tone: 'bad' })],
          [pageLink('findings.html', text('see the findings'))],
        ],
      }),
    ),
    ...risksOutside(context).map(
      ({ risk, outcome }): GridRow => ({
        cells: [
          idAndTitle(risk),
          evaluationWords(risk, 'after', context.view),
          outcome.kind === 'accepted by decision'
            ? [text('accepted by '), { kind: 'record-reference', id: outcome.decision }]
            : outcome.kind === 'not accepted'
              ? [text('no decision in force', { tone: 'bad' })]
              : [text('not judged: no estimate, or no criteria', { tone: 'caution' })],
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
        caption:
          'Risks that are not within the criteria after control, results that failed, and what cannot be read',
        isPlain: true,
        whenEmpty:
          context.graph.records.size === 0
            ? 'There are no records yet.'
            : 'No risk lies outside of the criteria after control, no result failed, and every record was read.',
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

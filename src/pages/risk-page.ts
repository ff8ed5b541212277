import type { GridRow, RiskMap, SitePage, SitePart } from '../document/site.ts';
import type { RecordOf } from '../records/record.ts';
import { text } from '../views/cells.ts';
import { controlsOf, estimateOf, evaluationWords, idList, residualWords } from '../views/risk-words.ts';
import { approvalWord, idAndTitle, mark, type SiteContext } from './site-context.ts';

type Risk = RecordOf<'risk'>;

const withoutEstimate = 'no estimate';

const panelsOf = (risks: readonly Risk[], context: SiteContext): RiskMap | undefined => {
  const criteria = context.project.fields.risk;
  if (!criteria || criteria.severities.length === 0 || criteria.probability.bands.length === 0)
    return undefined;
  const classes = criteria.severities.map((severity) => severity.class);
  const bands = criteria.probability.bands.map((band) => band.band);
  const placed = (['before', 'after'] as const).map((when) => ({
    when,
    risks: risks.map((risk) => {
      const estimate = estimateOf(risk, when, context.view);
      return {
        id: risk.id,
        severity: estimate?.severity ?? risk.fields.severity,
        band: estimate?.kind === 'by probability' ? estimate.band : withoutEstimate,
      };
    }),
  }));
  const needsRow = placed.some((panel) => panel.risks.some((risk) => risk.band === withoutEstimate));
  const rows = [...[...bands].reverse(), ...(needsRow ? [withoutEstimate] : [])];
  const isAcceptable = (severity: string, band: string): boolean => {
    if (band === withoutEstimate)
      return classes.indexOf(severity) <= classes.indexOf(criteria.not_estimable?.acceptable_up_to ?? '');
    const highest = Object.hasOwn(criteria.acceptable, severity) ? criteria.acceptable[severity] : undefined;
    return bands.indexOf(band) <= bands.indexOf(highest ?? '');
  };
  return {
    kind: 'risk-map',
    severities: criteria.severities.map(({ class: name, name: meaning }) => ({
      name,
      meaning: meaning ?? '',
    })),
    bands: rows.map((name) => ({
      name,
      meaning: criteria.probability.bands.find((band) => band.band === name)?.name ?? '',
    })),
    panels: placed.map(({ when, risks: inPanel }) => ({
      id: when,
      title: when === 'before' ? 'Before control' : 'After control',
      cells: rows.map((band, row) =>
        classes.map((severity, column) => ({
          anchor: `${when}-${row}-${column}`,
          isAcceptable: isAcceptable(severity, band),
          ids: inPanel.filter((risk) => risk.severity === severity && risk.band === band).map(({ id }) => id),
        })),
      ),
    })),
  };
};

/** What lies in each cell of the map that holds something; where a click on the cell leads. */
const cellSections = (map: RiskMap, context: SiteContext): readonly SitePart[] =>
  map.panels.flatMap((panel) =>
    panel.cells.flatMap((row, bandIndex) =>
      row.flatMap((cell, column): readonly SitePart[] => {
        if (cell.ids.length === 0) return [];
        const severity = map.severities[column];
        const band = map.bands[bandIndex];
        return [
          {
            kind: 'section',
            id: cell.anchor,
            title: `${panel.title}: ${severity?.name ?? ''}${severity?.meaning ? ` ${severity.meaning}` : ''}, ${band?.name ?? ''}${band?.meaning ? ` ${band.meaning}` : ''}`,
            parts: [
              {
                kind: 'grid',
                id: `cell-${cell.anchor}`,
                caption: `${cell.isAcceptable ? 'Within' : 'Not within'} the criteria`,
                isPlain: true,
                whenEmpty: '',
                columns: [
                  { title: 'Risk', width: 32 },
                  { title: 'Harm', width: 26 },
                  { title: 'Controls', width: 26 },
                  { title: 'Stands', width: 16 },
                ],
                rows: cell.ids.flatMap((id): readonly GridRow[] => {
                  const risk = context.graph.recordOf('risk', id);
                  if (!risk) return [];
                  return [
                    {
                      cells: [
                        idAndTitle(risk),
                        [text(risk.fields.harm)],
                        idList(
                          controlsOf(risk, context.view).map((control) => control.id),
                          'none',
                        ),
                        [mark(context.standing.get(id)?.state ?? 'unplanned')],
                      ],
                    },
                  ];
                }),
              },
            ],
          },
        ];
      }),
    ),
  );

/** Risks before and after control on a map whose cells open, and as a table. */
export const riskPage = (context: SiteContext): SitePage => {
  const risks = context.graph.recordsOf('risk').filter((risk) => risk.status !== 'retired');
  const map = panelsOf(risks, context);
  const plan = context.project.riskPlan;
  return {
    path: 'risks.html',
    title: 'Risks',
    under: 'risks.html',
    parts: [
      {
        kind: 'words',
        look: 'lead',
        children: [
          text(
            `${risks.length} risk${risks.length === 1 ? '' : 's'}, each one way from a hazard to a harm, judged by `,
          ),
          ...(plan
            ? [text('the criteria of '), ...idAndTitle(plan), text('.')]
            : [text('the criteria of the file.')]),
          text(
            ' Whether a risk is acceptable is for people to decide; the map shows where the criteria draw the line.',
          ),
        ],
      },
      ...(map
        ? [map]
        : [
            {
              kind: 'site-notice',
              tone: 'caution',
              lines: [[text('There are no risk criteria yet, so no risk has a place on a map.')]],
            } as const,
          ]),
      {
        kind: 'section',
        id: 'all',
        title: 'All risks',
        parts: [
          {
            kind: 'grid',
            id: 'risks',
            caption: 'Risks',
            whenEmpty: 'There are no risks yet.',
            columns: [
              { title: 'Risk', width: 22 },
              { title: 'Hazard', width: 14, isChoice: true, isHidden: true },
              { title: 'Harm', width: 20 },
              { title: 'Severity', width: 9, isChoice: true },
              { title: 'Before control', width: 20 },
              { title: 'Controls', width: 12 },
              { title: 'After control', width: 20 },
              { title: 'Stands', width: 11, isChoice: true },
              { title: 'Approval', width: 11, isChoice: true, isHidden: true },
            ],
            rows: risks.map((risk) => ({
              cells: [
                idAndTitle(risk),
                [text(risk.fields.hazard)],
                [text(risk.fields.harm)],
                [text(risk.fields.severity)],
                evaluationWords(risk, 'before', context.view),
                idList(
                  controlsOf(risk, context.view).map((control) => control.id),
                  'none',
                ),
                residualWords(risk, context.view),
                [mark(context.standing.get(risk.id)?.state ?? 'unplanned')],
                [mark(approvalWord(risk.id, context))],
              ],
            })),
          },
        ],
      },
      ...(map
        ? [
            {
              kind: 'section',
              id: 'cells',
              title: 'Cell by cell',
              parts: cellSections(map, context),
            } as const,
          ]
        : []),
    ],
  };
};

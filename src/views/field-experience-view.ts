import type { Block, Inline, Row, Table } from '../document/model.ts';
import { countedRisks, rateText, wasLookedAtAgain } from '../evidence/counted-risks.ts';
import type { ClaimOutcome, FieldSeries } from '../evidence/field-experience.ts';
import { confidenceText } from '../evidence/number-text.ts';
import { periodRates } from '../evidence/period-rates.ts';
import { rateChart } from '../figures/rate-chart.ts';
import { cell, nothing, notice, onLines, reference, text } from './cells.ts';
import { figureBlock } from './evidence-working.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

interface Options extends CommonOptions {
  readonly figures?: boolean;
}

const tones = {
  supported: 'good',
  'not yet shown': 'caution',
  contradicted: 'bad',
  'no estimate': 'quiet',
  closed: 'quiet',
} as const satisfies Record<ClaimOutcome, string>;

/** A rate in the denominator of the risk criteria. */
const perOne = (rate: number, { project }: ViewContext): string =>
  `${rateText(rate)} ${project.fields.risk?.probability.denominator ?? 'per use'}`;

const outcomeText = {
  supported: 'supported',
  'not yet shown': 'consistent with it, not yet shown',
  contradicted: 'contradicted',
  'no estimate': 'no estimate',
  closed: 'an earlier state',
} as const satisfies Record<ClaimOutcome, string>;

const outcomeWords = (
  { outcome, claim, counts, estimate, usesNeeded }: FieldSeries,
  context: ViewContext,
): readonly Inline[] =>
  onLines([
    [text(outcomeText[outcome], { tone: tones[outcome], bold: true })],
    ...(claim === undefined
      ? []
      : [
          [
            text(
              claim.edge === undefined
                ? `${claim.words} ${estimate} control, which has no upper end`
                : counts === 'situation'
                  ? `${claim.words} ${estimate} control`
                  : `${claim.words} ${estimate} control, up to ${perOne(claim.edge, context)}`,
            ),
          ],
        ]),
    ...(usesNeeded === undefined
      ? []
      : [[text(`${usesNeeded} uses without a further event would show it`, { tone: 'quiet' })]]),
  ]);

const trendWords = ({ trend, parts }: FieldSeries): readonly Inline[] =>
  onLines([
    trend
      ? [
          text(
            `p ${trend.pValue < 0.0001 ? 'below 0.0001' : trend.pValue.toFixed(trend.pValue < 0.01 ? 4 : 2)} against a rise${trend.isExact ? '' : ', by approximation'}`,
          ),
        ]
      : [nothing('fewer than three periods')],
    ...parts
      .filter(({ reached }) => reached.length > 0)
      .map((part): readonly Inline[] => [
        text(`threshold reached in ${part.reached.map((each) => each.period).join(', ')}`, { tone: 'bad' }),
        text(wasLookedAtAgain(part) ? ', looked at again' : ', not looked at again', { tone: 'quiet' }),
      ]),
  ]);

const rowOf = (series: FieldSeries, context: ViewContext): Row => ({
  cells: [
    cell(...onLines([[reference(series.risk.id)], [text(series.risk.title)]])),
    cell(
      ...onLines([
        [text(`${series.column} (${series.counts === 'situation' ? 'hazardous situation' : 'harm'})`)],
        ...series.parts.map(({ record }): readonly Inline[] => [
          reference(record.id),
          text(`, ${record.fields.period.from} to ${record.fields.period.to}`),
        ]),
        ...(series.last.record.fields.device.which === 'comparable'
          ? [
              [
                text(
                  `comparable device: ${series.last.record.fields.device.description ?? 'not described'}`,
                  {
                    tone: 'quiet' as const,
                  },
                ),
              ],
            ]
          : []),
        ...(series.parts[0]?.record.fields.starts_anew === undefined
          ? []
          : [
              [
                text(`counted anew: ${series.parts[0].record.fields.starts_anew}`, {
                  tone: 'quiet' as const,
                }),
              ],
            ]),
      ]),
    ),
    cell(text(`${series.events} in ${series.uses} uses`)),
    cell(
      ...onLines([
        [text(perOne(series.rate, context), { bold: true })],
        [
          text(
            `${series.events === 0 ? '' : `at least ${rateText(series.lower)}, `}at most ${rateText(series.upper)}, each with ${confidenceText(series.confidence)} confidence`,
          ),
        ],
      ]),
    ),
    cell(...outcomeWords(series, context)),
    cell(...trendWords(series)),
  ],
});

const figureOf = (series: FieldSeries): readonly Block[] => {
  const { claim, counts, column, risk, confidence, parts } = series;
  const drawing = rateChart({
    subject: `${column}, ${risk.id}`,
    periods: periodRates(series),
    marks:
      claim?.edge === undefined
        ? []
        : [
            {
              label: counts === 'situation' ? claim.words : `end of ${claim.words}`,
              value: claim.edge,
            },
          ],
    confidence: confidenceText(confidence),
  });
  return drawing
    ? [
        figureBlock({
          caption: `Rate of ${column} by period, ${risk.id}, ${parts.map(({ record }) => record.id).join(', ')}`,
          drawing,
        }),
      ]
    : [];
};

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const counted = countedRisks(context).filter(({ last }) => isShown(last.record, options));
  if (counted.length === 0) return { blocks: [notice('There are no field data yet.')] };
  const table: Table = {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: 'Risk', width: 18 },
      { title: 'What was counted', width: 26 },
      { title: 'Events', width: 13 },
      { title: 'Rate', width: 20 },
      { title: 'What is claimed', width: 22 },
      { title: 'Trend and thresholds', width: 18 },
    ],
    rows: counted.map((series) => rowOf(series, context)),
    description:
      'For each risk that events were counted of: the events and uses, the rate with exact bounds, whether it supports what is claimed, and whether the rate rises.',
  };
  const reporting = [
    ...new Map(
      counted.flatMap(({ parts }) =>
        parts.map(({ record }) => [record.id, record.fields.under_reporting] as const),
      ),
    ),
  ];
  const ofOwn = counted.some(({ last }) => last.record.fields.device.which === 'own');
  return {
    blocks: [
      ...(ofOwn
        ? []
        : [
            {
              kind: 'paragraph',
              children: [
                text('There are no field data of the device itself yet; these are of comparable ones.'),
              ],
            } as const,
          ]),
      table,
      notice(
        'Counts are those of the records of field data, as each says how they came about. Events that nobody reported or found are not in them, and no factor for them was applied. A supported claim does not say that a risk is acceptable: people decide that.',
      ),
      ...reporting.map(
        ([id, words]): Block => ({
          kind: 'paragraph',
          children: [reference(id), text(`, under-reporting: ${words ?? 'nothing is said of it.'}`)],
        }),
      ),
      ...(options.figures === false ? [] : counted.flatMap(figureOf)),
    ],
  };
};

export const fieldExperienceView: View = { name: 'field-experience', draw };

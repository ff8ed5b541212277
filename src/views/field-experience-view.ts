import type { Block, Inline, Row, Table } from '../document/model.ts';
import { type CountedRisk, countedRisks, rateText } from '../evidence/counted-risks.ts';
import type { ClaimOutcome, RiskExperience } from '../evidence/field-experience.ts';
import { confidenceText } from '../evidence/number-text.ts';
import { periodRates } from '../evidence/period-rates.ts';
import { rateChart } from '../figures/rate-chart.ts';
import { cell, nothing, notice, onLines, reference, text } from './cells.ts';
import { figureBlock } from './evidence-working.ts';
import { type CommonOptions, captionOf, isShown, type View } from './view.ts';

interface Options extends CommonOptions {
  readonly figures?: boolean;
}

const tones = {
  supported: 'good',
  'not yet shown': 'caution',
  contradicted: 'bad',
  'no estimate': 'quiet',
} as const satisfies Record<ClaimOutcome, string>;

const perUse = (rate: number): string => `${rateText(rate)} per use`;

const outcomeWords = ({ outcome, band, edge, estimate, usesNeeded }: RiskExperience): readonly Inline[] =>
  onLines([
    [text(outcome, { tone: tones[outcome], bold: true })],
    ...(band === undefined
      ? []
      : [
          [
            text(
              `${band} ${estimate} control${edge === undefined ? ', which has no upper end here' : `, up to ${perUse(edge)}`}`,
            ),
          ],
        ]),
    ...(usesNeeded === undefined
      ? []
      : [[text(`${usesNeeded} uses without a further event would show it`, { tone: 'quiet' })]]),
  ]);

const trendWords = ({ trend, reached }: RiskExperience): readonly Inline[] =>
  onLines([
    trend
      ? [
          text(
            `p ${trend.pValue < 0.0001 ? 'below 0.0001' : trend.pValue.toFixed(trend.pValue < 0.01 ? 4 : 2)} against a rise${trend.isExact ? '' : ', by approximation'}`,
          ),
        ]
      : [nothing('fewer than three periods')],
    ...(reached.length === 0
      ? []
      : [[text(`threshold reached in ${reached.map((each) => each.period).join(', ')}`, { tone: 'bad' })]]),
  ]);

const rowOf = ({ experience, counted }: CountedRisk): Row => {
  const { record, confidence } = experience;
  return {
    cells: [
      cell(...onLines([[reference(counted.risk.id)], [text(counted.risk.title)]])),
      cell(
        ...onLines([
          [text(`${counted.column} (${counted.counts === 'situation' ? 'hazardous situation' : 'harm'})`)],
          [reference(record.id), text(`, ${record.fields.period.from} to ${record.fields.period.to}`)],
          ...(record.fields.device.which === 'comparable'
            ? [
                [
                  text(`comparable device: ${record.fields.device.description ?? 'not described'}`, {
                    tone: 'quiet',
                  }),
                ],
              ]
            : []),
        ]),
      ),
      cell(text(`${counted.events} in ${counted.uses} uses`)),
      cell(
        ...onLines([
          [text(perUse(counted.rate), { bold: true })],
          [
            text(
              `${counted.events === 0 ? '' : `at least ${rateText(counted.lower)}, `}at most ${rateText(counted.upper)}, each with ${confidenceText(confidence)} confidence`,
            ),
          ],
        ]),
      ),
      cell(...outcomeWords(counted)),
      cell(...trendWords(counted)),
    ],
  };
};

const figureOf = ({ experience, counted }: CountedRisk): readonly Block[] => {
  const drawing = rateChart({
    subject: `${counted.column}, ${counted.risk.id}`,
    periods: periodRates(counted, experience.confidence),
    marks: counted.edge === undefined ? [] : [{ label: `end of band ${counted.band}`, value: counted.edge }],
    confidence: confidenceText(experience.confidence),
  });
  return drawing
    ? [
        figureBlock({
          caption: `Rate of ${counted.column} by period, ${counted.risk.id}, ${experience.record.id}`,
          drawing,
        }),
      ]
    : [];
};

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const counted = countedRisks(context).filter(({ experience }) => isShown(experience.record, options));
  if (counted.length === 0) return { blocks: [notice('There are no field data yet.')] };
  const table: Table = {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: 'Risk', width: 18 },
      { title: 'What was counted', width: 26 },
      { title: 'Events', width: 13 },
      { title: 'Rate', width: 20 },
      { title: 'Band that is claimed', width: 22 },
      { title: 'Trend and thresholds', width: 18 },
    ],
    rows: counted.map(rowOf),
    description:
      'For each risk that events were counted of: the events and uses, the rate with exact bounds, whether it supports the band that is claimed, and whether the rate rises.',
  };
  const reporting = [
    ...new Map(
      counted.map(({ experience: { record } }) => [record.id, record.fields.under_reporting] as const),
    ),
  ];
  return {
    blocks: [
      table,
      notice(
        'Counts are those that were reported. Events that nobody reports are not in them, and no factor for them was applied. A supported band does not say that a risk is acceptable: people decide that.',
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

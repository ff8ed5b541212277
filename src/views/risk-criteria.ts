import type { Block, Table } from '../document/model.ts';
import { confidenceText } from '../evidence/number-text.ts';
import type { RiskCriteria } from '../evidence/risk-estimate.ts';
import type { PlinthFields } from '../records/fields.ts';
import { cell, nothing, notice, onLines, text } from './cells.ts';
import { probabilityWords } from './probability-words.ts';
import { type CommonOptions, captionOf, type View } from './view.ts';

type Policy = NonNullable<PlinthFields['sampling_policy']>;

/** Bounds of a band, half-open: `10⁻⁶ to below 10⁻⁵`. */
const boundsOf = ({ probability: { bands } }: RiskCriteria, index: number): string => {
  const words = (value: number): string => probabilityWords(value, String(value));
  const from = bands[index - 1]?.below;
  const below = bands[index]?.below;
  if (from === undefined) return below === undefined ? 'any' : `below ${words(below)}`;
  return below === undefined ? `from ${words(from)}` : `${words(from)} to below ${words(below)}`;
};

const matrix = (criteria: RiskCriteria, options: CommonOptions): Table => {
  const { severities, probability, acceptable } = criteria;
  const bands = probability.bands.map((each) => each.band);
  return {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: `Severity, and probability of harm ${probability.denominator}`, width: 26 },
      ...probability.bands.map(({ band, name }, index) => ({
        title: `${band}${name === undefined ? '' : ` ${name}`}, ${boundsOf(criteria, index)}`,
        width: 16,
      })),
    ],
    rows: severities.map(({ class: severity, name }) => {
      const limit = Object.hasOwn(acceptable, severity) ? bands.indexOf(acceptable[severity] ?? '') : -1;
      return {
        cells: [
          cell(...onLines([[text(severity, { bold: true })], [text(name)]])),
          ...bands.map((_, index) =>
            cell(
              limit === -1
                ? nothing('no criterion')
                : index <= limit
                  ? text('acceptable', { tone: 'good' })
                  : text('not acceptable', { tone: 'bad', bold: true }),
            ),
          ),
        ],
      };
    }),
    description:
      'Severities in rows, bands of the probability of harm in columns; each cell says whether a residual risk is acceptable there.',
  };
};

const sampling = (policy: Policy): Table => ({
  kind: 'table',
  columns: [
    { title: 'Severity before control', width: 24 },
    { title: 'Confidence', width: 18 },
    { title: 'Share of units', width: 18 },
  ],
  rows: policy.map(({ severity, confidence, reliability }) => ({
    cells: [
      cell(text(severity, { bold: true })),
      cell(text(confidenceText(confidence))),
      cell(text(confidenceText(reliability))),
    ],
  })),
  description: 'What a sampling plan has to show, by the severity of the risks that it helps to control.',
});

const paragraph = (value: string): Block => ({ kind: 'paragraph', children: [text(value)] });

const draw: View['draw'] = (body, { project }) => {
  const { part = 'acceptability', ...options } = body as CommonOptions & {
    readonly part?: 'acceptability' | 'sampling';
  };
  const { risk, sampling_policy } = project.fields;
  if (part === 'sampling')
    return {
      blocks: [
        sampling_policy
          ? { ...sampling(sampling_policy), ...captionOf(options) }
          : notice('There is no sampling policy yet.'),
      ],
    };
  if (!risk) return { blocks: [notice('There are no risk criteria yet.')] };
  return {
    blocks: [
      matrix(risk, options),
      ...(risk.not_estimable
        ? [
            paragraph(
              `Where the probability of harm cannot be estimated: acceptable up to ${risk.not_estimable.acceptable_up_to}. ${risk.not_estimable.statement}`,
            ),
          ]
        : []),
    ],
  };
};

/** The criteria in force: the matrix of severity and probability, or the sampling policy. */
export const riskCriteria: View = { name: 'risk-criteria', draw };

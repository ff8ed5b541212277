import type { Block, Figure, Inline, Table } from '../document/model.ts';
import { limitWords } from '../evidence/limit-words.ts';
import { decimalsOf, fixed, printedNumber, valueText } from '../evidence/number-text.ts';
import type {
  CharacteristicEvidence,
  EvidenceResult,
  EvidenceTable,
  NamedValue,
} from '../evidence/result.ts';
import { unitText } from '../records/units.ts';
import { cell, nothing, text, verdictText } from './cells.ts';
import { type EvidenceFigure, figuresOf } from './evidence-figures.ts';
import { evidenceParticulars } from './evidence-particulars.ts';
import type { ViewContext } from './view.ts';

/** Readings beyond this number are left to the raw-data file. */
const mostReadings = 120;

export interface WorkingOptions {
  /** Names of the figures to draw; the usual ones of the method where not given. */
  readonly figures?: readonly string[];
}

/**
 * The working of one record, so that a reviewer can repeat it by hand: inputs, method and source of the formula,
 * readings, intermediate values, assumptions, the bound against the limit, verdict and reason.
 */
export const workingOf = (
  result: EvidenceResult,
  context: ViewContext,
  options: WorkingOptions = {},
): readonly Block[] => {
  // Characteristics judged by one plan have the same figure of it: once is enough.
  const drawn = new Set<string>();
  return [
    { kind: 'particulars', entries: evidenceParticulars(result, context) },
    ...result.characteristics.flatMap((each): readonly Block[] => {
      const figures = figuresOf(result, each, context.graph).filter(
        ({ name, usual, drawing }) =>
          (options.figures ? options.figures.includes(name) : usual) && !drawn.has(drawing.svg),
      );
      for (const { drawing } of figures) drawn.add(drawing.svg);
      return [
        ...characteristicBlocks(each, result.characteristics.length > 1),
        ...figures.map((figure) => figureBlock(figure)),
      ];
    }),
  ];
};

/** What the data say about one characteristic: verdict, readings, values, assumptions. */
export const characteristicBlocks = (
  evidence: CharacteristicEvidence,
  isOneOfSeveral: boolean,
): readonly Block[] => {
  const { limits } = evidence;
  return [
    lead([
      text(`${capital(limits.characteristic)}, ${limitWords(limits)}: `, { bold: true }),
      verdictText(evidence.verdict),
    ]),
    ...(isOneOfSeveral ? [paragraph(evidence.reason)] : []),
    ...(evidence.remedy !== undefined && evidence.verdict === 'undecided'
      ? [
          {
            kind: 'notice',
            tone: 'caution',
            blocks: [paragraph(`What to do: ${evidence.remedy}`)],
          } as const,
        ]
      : []),
    ...readingsBlocks(evidence),
    ...groupBlocks(evidence),
    ...(evidence.tables ?? []).flatMap((table) => [lead([text(table.title)]), tableOf(table)]),
    ...(evidence.values.length > 0
      ? [lead([text('Values')]), valuesTable(evidence.values, limits.characteristic)]
      : []),
    ...boundSentences(evidence).map(paragraph),
    ...(evidence.assumptions.length > 0 ? [lead([text('Assumptions')]), assumptionsTable(evidence)] : []),
  ];
};

/** A figure as a block of a document. */
export const figureBlock = (
  { caption, drawing }: Pick<EvidenceFigure, 'caption' | 'drawing'>,
  own: { readonly caption?: string; readonly anchor?: string } = {},
): Figure => ({
  kind: 'figure',
  caption: own.caption ?? caption,
  ...(own.anchor === undefined ? {} : { anchor: own.anchor }),
  svg: drawing.svg,
  alternative: drawing.alternative,
  widthPx: drawing.widthPx,
  heightPx: drawing.heightPx,
});

const paragraph = (words: string): Block => ({ kind: 'paragraph', children: [text(words)] });

const lead = (children: readonly Inline[]): Block => ({ kind: 'paragraph', children, leadsIn: true });

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

const signs = { below: '<', above: '>', measured: '' } as const;

/** Readings with the decimals of the finest one, in the order of the file; `<` and `>` where a unit lay beyond its reading. */
const listOf = (
  readings: readonly number[],
  beyond: NonNullable<CharacteristicEvidence['beyond']> = [],
): string => {
  // Very large and very small readings have no decimals that could be lined up.
  if (readings.some((value) => value !== 0 && (Math.abs(value) >= 1e9 || Math.abs(value) < 1e-6)))
    return readings
      .map(
        (value, index) =>
          `${signs[beyond[index] ?? 'measured']}${printedNumber(String(Number(value.toPrecision(12))))}`,
      )
      .join(', ');
  // Conversion of units leaves digits of rounding behind; twelve hold every reading.
  const decimals = Math.max(...readings.map((value) => decimalsOf(String(Number(value.toPrecision(12))))));
  return readings
    .map((value, index) => `${signs[beyond[index] ?? 'measured']}${fixed(value, decimals)}`)
    .join(', ');
};

/** The readings of the groups that are compared, so that means and spreads can be worked out again. */
const groupBlocks = ({ groups = [], limits }: CharacteristicEvidence): readonly Block[] =>
  groups.map(({ name, values }) =>
    paragraph(
      values.length > mostReadings
        ? `The ${values.length} readings of ${name} are in the raw-data file.`
        : `Readings of ${name}${limits.unit === '1' ? '' : ` in ${unitText(limits.unit)}`} (${values.length}): ${listOf(values)}.`,
    ),
  );

const readingsBlocks = ({
  readings,
  beyond,
  limits,
  groups,
  areWorstOfUnit,
}: CharacteristicEvidence): readonly Block[] => {
  if (readings.length === 0) return [];
  const unit = limits.unit === '1' ? '' : ` in ${unitText(limits.unit)}`;
  if (groups)
    return readings.length > mostReadings
      ? []
      : [paragraph(`Differences of the pairs${unit} (${readings.length}): ${listOf(readings)}.`)];
  if (readings.length > mostReadings)
    return [
      paragraph(
        `The ${readings.length} readings are in the raw-data file; they are counted${unit || ' as they stand'}.`,
      ),
    ];
  return [
    paragraph(
      `${areWorstOfUnit ? 'The reading of each unit that is nearest to a limit or farthest beyond it' : 'Readings that count'}${unit}, in the order of the file (${readings.length}): ${listOf(readings, beyond)}.`,
    ),
  ];
};

const tableOf = ({ title, columns, rows }: EvidenceTable): Table => ({
  kind: 'table',
  columns: columns.map((name, index) => ({
    title: name,
    width: index === 0 ? 26 : 74 / Math.max(1, columns.length - 1),
    ...(index === 0 ? {} : { align: 'right' as const }),
  })),
  rows: rows.map((row) => ({ cells: row.map((words) => cell(words === '' ? nothing() : text(words))) })),
  description: `${title}.`,
});

const valuesTable = (values: readonly NamedValue[], characteristic: string): Table => ({
  kind: 'table',
  columns: [
    { title: 'Quantity', width: 52 },
    { title: 'Value', width: 24, align: 'right' },
    { title: 'To more digits', width: 24, align: 'right' },
  ],
  rows: values.map((named) => ({
    cells: [
      cell(text(named.label)),
      cell(text(valueText(named))),
      cell(
        text(Number.isInteger(named.value) ? printedNumber(String(named.value)) : moreDigits(named.value)),
      ),
    ],
  })),
  description: `Values that were computed for ${characteristic}, as printed and to more digits.`,
});

/** Eight digits that count, so that a reviewer who repeats the calculation sees rounding apart from error. */
const moreDigits = (value: number): string => {
  if (!Number.isFinite(value)) return 'not a number';
  const size = Math.abs(value);
  // Large numbers keep the digits behind the point that the smaller ones have.
  if (size >= 1e4 && size < 1e12) return value.toFixed(5).replace('-', '−');
  return size >= 1e12 || size < 1e-4
    ? printedNumber(value.toExponential(11))
    : value.toPrecision(8).replace('-', '−');
};

/** How the values of a method lead to its bound: the scale on which mean and standard deviation were taken, and the way back. */
interface Scale {
  readonly mean: string;
  readonly deviation: string;
  readonly words: string;
  /** From the scale to the reading. */
  readonly back: (value: number) => number;
  /** `exp(…)` around the working, where the scale is not that of the readings. */
  readonly around: (working: string) => string;
}

const scaleOf = (of: (key: string) => number | undefined): Scale | undefined => {
  if (of('mean') !== undefined)
    return {
      mean: 'mean',
      deviation: 'standard_deviation',
      words: '',
      back: (value) => value,
      around: (working) => working,
    };
  if (of('mean_of_logarithms') !== undefined)
    return {
      mean: 'mean_of_logarithms',
      deviation: 'standard_deviation_of_logarithms',
      words: ' of the natural logarithms',
      back: Math.exp,
      around: (working) => `exp(${working})`,
    };
  const power = of('power');
  if (of('mean_transformed') === undefined || power === undefined) return undefined;
  return {
    mean: 'mean_transformed',
    deviation: 'standard_deviation_transformed',
    words: ' of the transformed readings',
    back: (value) => (power === 0 ? Math.exp(value) : (1 + power * value) ** (1 / power)),
    around: (working) =>
      power === 0
        ? `exp(${working})`
        : `(1 + ${moreDigits(power)} × (${working})) to the power 1 / ${moreDigits(power)}`,
  };
};

/** How a bound follows from mean, factor and standard deviation, where it does to the last digits. */
const boundSentences = ({ values }: CharacteristicEvidence): readonly string[] => {
  const of = (key: string): number | undefined => values.find((value) => value.key === key)?.value;
  const [shape, weibullScale, q] = [of('shape'), of('scale'), of('factor')];
  const weibull = values.find((value) => value.key === 'lower_bound');
  if (shape !== undefined && weibullScale !== undefined && q !== undefined && weibull)
    return [
      `By hand: ${weibull.label} = scale × exp(−q / shape) = ${moreDigits(weibullScale)} × exp(−${moreDigits(q)} / ${moreDigits(shape)}) = ${moreDigits(weibull.value)}.`,
    ];
  const scale = scaleOf(of);
  if (!scale) return [];
  const [mean, factor, deviation] = [of(scale.mean), of('factor'), of(scale.deviation)];
  if (mean === undefined || factor === undefined || deviation === undefined) return [];
  return (
    [
      ['lower_bound', '−', -1],
      ['upper_bound', '+', 1],
    ] as const
  ).flatMap(([key, sign, direction]) => {
    const bound = values.find((value) => value.key === key);
    const worked = scale.back(mean + direction * factor * deviation);
    const size = Math.abs(scale.back(mean)) + Math.abs(bound?.value ?? 0);
    return bound && Math.abs(worked - bound.value) <= 1e-9 * size
      ? [
          `By hand: ${bound.label} = ${scale.around(`mean ${sign} k × standard deviation`)}${scale.words} = ${scale.around(`${moreDigits(mean)} ${sign} ${moreDigits(factor)} × ${moreDigits(deviation)}`)} = ${moreDigits(bound.value)}.`,
        ]
      : [];
  });
};

const assumptionsTable = ({ assumptions }: CharacteristicEvidence): Table => ({
  kind: 'table',
  columns: [
    { title: 'Assumption', width: 30 },
    { title: 'Outcome', width: 14 },
    { title: 'Detail', width: 56 },
  ],
  rows: assumptions.map(({ name, outcome, detail }) => ({
    cells: [
      cell(text(name)),
      cell(
        text(outcome, {
          bold: true,
          tone: outcome === 'met' ? 'good' : outcome === 'not met' ? 'caution' : 'quiet',
        }),
      ),
      cell(text(detail)),
    ],
  })),
  description: 'Conditions that the method rests on, and what testing them showed.',
});

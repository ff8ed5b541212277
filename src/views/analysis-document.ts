import type { Block, Document, Table } from '../document/model.ts';
import { shortCaution } from '../document/short-caution.ts';
import { limitWords } from '../evidence/limit-words.ts';
import { valueText } from '../evidence/number-text.ts';
import type { CharacteristicEvidence, EvidenceResult, NamedValue } from '../evidence/result.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { unitText, withUnit } from '../records/units.ts';
import { cell, notice, onLines, text, verdictText } from './cells.ts';
import { characterHistogram, type NamedMark } from './character-histogram.ts';
import { figuresOf } from './evidence-figures.ts';
import { characteristicBlocks, figureBlock } from './evidence-working.ts';
import { heading, paragraph, table } from './vouch-pieces.ts';

export interface AnalysisDocumentInputs {
  readonly result: EvidenceResult;
  /** The same readings by the method for capability, where they allow it. */
  readonly capability?: EvidenceResult;
  readonly graph: TraceGraph;
  /** The file as the user named it. */
  readonly file: string;
  readonly column: string;
  /** Figures of the plan by name, as they were written. */
  readonly plan: Readonly<Record<string, string>>;
  /** Column that names the units; without one, each row is a unit. */
  readonly unitColumn?: string;
  readonly figures: 'characters' | 'drawings';
  readonly toolVersion: string;
}

/** Said first, so that nobody takes a look for evidence. */
export const noRecord =
  'This is a quick look, not a verification record: nothing was planned before the readings were seen, nobody approved anything, and nothing says which units were measured, by whom, or with what. Limits, method and sample chosen after the readings prove nothing, whatever the verdict says.';

/** A quick look at one column of readings: what a verification record would say of them. */
export const analysisDocument = (inputs: AnalysisDocumentInputs): Document => ({
  id: 'analysis',
  title: 'Quick look at readings',
  subtitle: `${inputs.column} in ${inputs.file}`,
  number: 'Quick look',
  revision: '',
  status: 'not a verification record',
  date: '',
  organisation: '',
  product: '',
  language: 'en-GB',
  signatures: [],
  blocks: [
    notice(noRecord, 'caution'),
    particulars(inputs),
    ...inputs.result.characteristics.flatMap((each) => evidenceBlocks(inputs, each)),
    ...capabilityBlocks(inputs),
  ],
  footnotes: [],
  caution: shortCaution,
  provenance: [
    { name: 'Raw data', value: `${inputs.file}, SHA-256 ${inputs.result.dataDigest ?? 'unknown'}` },
    { name: 'Compiled with', value: `plinth ${inputs.toolVersion}` },
    { name: 'Caution', value: 'a quick look, not a verification record' },
  ],
  recordTitles: new Map(),
});

const particulars = ({ result, file, column, plan, unitColumn }: AnalysisDocumentInputs): Block => {
  const [first] = result.characteristics;
  const planned = Object.entries(plan).map(([name, value]) => `${name.replaceAll('_', ' ')} ${value}`);
  return {
    kind: 'particulars',
    entries: [
      { name: 'Raw data', value: [text(file, { code: true })] },
      {
        name: 'Column',
        value: [
          text(`${column}${first && first.limits.unit !== '1' ? ` in ${unitText(first.limits.unit)}` : ''}`),
        ],
      },
      ...(first ? [{ name: 'Limits', value: [text(limitWords(first.limits))] }] : []),
      { name: 'Method', value: onLines([[text(result.method.replaceAll('-', ' '))], [text(result.basis)]]) },
      ...(planned.length > 0 ? [{ name: 'As if planned', value: [text(planned.join(', '))] }] : []),
      {
        name: 'Units',
        value: [
          text(
            `${result.unitCount}${unitColumn === undefined ? ' (each row is taken as a unit of its own)' : ''}${result.lots.length > 0 ? `; lots: ${result.lots.join(', ')}` : ''}`,
          ),
        ],
      },
      { name: 'Verdict', value: [verdictText(result.verdict)] },
      { name: 'Reason', value: [text(result.reason)] },
    ],
  };
};

const evidenceBlocks = (
  { result, graph, file, figures }: AnalysisDocumentInputs,
  evidence: CharacteristicEvidence,
): readonly Block[] => {
  const blocks = characteristicBlocks(evidence, false);
  if (figures === 'drawings')
    return [
      ...blocks,
      ...figuresOf({ ...result, record: file }, evidence, graph).map((figure) => figureBlock(figure)),
    ];
  // A shift between two groups is no reading, so its limits have no place among them.
  const drawn =
    result.method === 'equivalence' ? '' : characterHistogram(evidence.readings, marksOf(evidence));
  return [...(drawn === '' ? [] : [{ kind: 'code', value: drawn } as const]), ...blocks];
};

/** Limits and bounds, where they are of the same kind as the readings. */
const marksOf = ({ limits, values }: CharacteristicEvidence): readonly NamedMark[] => [
  ...(['lower', 'upper'] as const).flatMap((side) => {
    const value = limits[side];
    const written = limits[`${side}Text`] ?? String(value);
    return value === undefined ? [] : [{ label: `${side} limit ${withUnit(written, limits.unit)}`, value }];
  }),
  ...values
    .filter(({ key, unit }) => /^(?:lower|upper)_bound$/.test(key) && unit === limits.unit)
    .map(({ label, value, unit, decimals }) => ({
      label: `${label} ${valueText({ value, unit, decimals })}`,
      value,
    })),
];

/** Keys of the values of the capability method that say something without an index that was asked for. */
const capabilityKeys = [
  'ppk',
  'ppk_lower_bound',
  'pp',
  'pp_lower_bound',
  'within_standard_deviation',
  'cpk',
  'cp',
  'share_outside',
];

/** Capability values of a quick look: an estimated share outside only where the readings look normal. */
export const capabilityValues = (capability: EvidenceResult | undefined): readonly NamedValue[] => {
  const [evidence] = capability?.characteristics ?? [];
  return (evidence?.values ?? []).filter(
    ({ key }) =>
      capabilityKeys.includes(key) && (key !== 'share_outside' || evidence?.verdict !== 'undecided'),
  );
};

/** Methods whose readings are taken to be normal; an index says nothing beside the others. */
const ofNormalReadings: ReadonlySet<string> = new Set([
  'normal-tolerance-interval',
  'mean',
  'capability',
  'all-units',
]);

const capabilityBlocks = ({ capability, result }: AnalysisDocumentInputs): readonly Block[] => {
  if (!ofNormalReadings.has(result.method)) return [];
  const values = capabilityValues(capability);
  const [evidence] = capability?.characteristics ?? [];
  if (!evidence || values.length === 0) return [];
  return [
    heading(1, 'Capability'),
    ...(evidence.verdict === 'undecided' ? [notice(`${sentence(evidence.reason)}.`, 'caution')] : []),
    valuesTable(values),
    paragraph(text(`Formulas from: ${capability?.basis}.`, { tone: 'quiet' })),
  ];
};

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

const valuesTable = (values: readonly NamedValue[]): Table =>
  table(
    'Capability of the readings against the limits',
    [
      { title: 'Quantity', width: 70 },
      { title: 'Value', width: 30, align: 'right' },
    ],
    values.map(({ label, value, unit, decimals }) => [
      cell(text(label)),
      cell(text(valueText({ value, unit, decimals }))),
    ]),
  );

import type { Inline } from '../document/model.ts';
import type { EvidenceResult } from '../evidence/result.ts';
import { onLines, reference, text, verdictText } from './cells.ts';
import { evidenceInputs } from './evidence-inputs.ts';
import type { ViewContext } from './view.ts';

type Entries = { readonly name: string; readonly value: readonly Inline[] }[];

/**
 * What went into the evaluation of a record: protocol, method and source of its formulas, plan, inputs, raw data with
 * digest; and what came out of it.
 */
export const evidenceParticulars = (result: EvidenceResult, { graph }: ViewContext): Entries => {
  const record = graph.record(result.record);
  const protocol =
    result.protocol === undefined
      ? undefined
      : (graph.recordOf('verification-protocol', result.protocol) ??
        graph.recordOf('validation-protocol', result.protocol));
  const study = graph.recordOf('test-method', result.record)?.fields.study;
  const stated =
    study?.sha256 ?? (record?.fields['data'] as { readonly sha256?: string } | undefined)?.sha256;
  const sampling: Readonly<Record<string, unknown>> = protocol?.fields.sampling ?? {};
  const plan = ['confidence', 'reliability', 'accept', 'capability_index', 'size', 'lots'].flatMap(
    (field) => {
      const written = protocol?.yaml.written(['sampling', field]);
      const value = sampling[field];
      return value === undefined ? [] : [`${planWords[field] ?? field} ${written ?? String(value)}`];
    },
  );
  const inputs = evidenceInputs(record, graph);
  const entry = (name: string, value: readonly Inline[] | undefined): Entries =>
    value === undefined ? [] : [{ name, value }];
  return [
    ...entry('Record', [reference(result.record), text(` ${record?.title ?? ''}`)]),
    ...entry('Protocol', protocol && [reference(protocol.id), text(` ${protocol.title}`)]),
    ...entry('Method', [text(result.method === '' ? 'none' : result.method.replaceAll('-', ' '))]),
    ...entry('Formulas from', result.basis === '' ? undefined : [text(result.basis)]),
    ...entry('Plan', plan.length > 0 ? [text(plan.join(', '))] : undefined),
    ...entry('Inputs', inputs.length > 0 ? onLines(inputs) : undefined),
    ...entry(
      study ? 'Rows in the data' : 'Units in the data',
      result.dataFile === undefined ? undefined : [text(unitsWords(result))],
    ),
    ...entry('Raw data', result.dataFile === undefined ? undefined : [text(result.dataFile, { code: true })]),
    ...entry(
      'SHA-256 of the raw data',
      result.dataDigest === undefined
        ? undefined
        : [
            text(result.dataDigest, { code: true }),
            text(
              stated === result.dataDigest
                ? ', as the record states'
                : ', not the one that the record states',
              stated === result.dataDigest ? {} : { tone: 'bad' },
            ),
          ],
    ),
    ...entry('Verdict', [verdictText(result.verdict)]),
    ...entry('Reason', result.reason === '' ? undefined : [text(result.reason)]),
  ];
};

const planWords: Readonly<Record<string, string>> = {
  confidence: 'confidence',
  reliability: 'reliability',
  accept: 'acceptance number',
  capability_index: 'capability index',
  size: 'size',
  lots: 'lots',
};

const unitsWords = ({ unitCount, excludedUnits, lots }: EvidenceResult): string =>
  [
    String(unitCount),
    ...(excludedUnits.length > 0 ? [`excluded: ${excludedUnits.join(', ')}`] : []),
    ...(lots.length > 0 ? [`lots: ${lots.join(', ')}`] : []),
  ].join('; ');

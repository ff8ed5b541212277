import type { RecordOf } from '../records/record.ts';
import type { TraceGraph } from './trace-graph.ts';

/** A record that sets out how design inputs are shown. */
export type Verifier =
  | RecordOf<'verification-protocol'>
  | RecordOf<'validation-protocol'>
  | RecordOf<'analysis'>;

/** Protocols and analyses, not retired, that verify a design input. */
export const verifiersOf = (graph: TraceGraph, input: string): readonly Verifier[] => [
  ...graph.sources(input, 'verifies', 'verification-protocol'),
  ...graph.sources(input, 'verifies', 'validation-protocol'),
  ...graph.sources(input, 'verifies', 'analysis'),
];

/** All protocols and analyses that are not retired. */
export const allVerifiers = (graph: TraceGraph): readonly Verifier[] =>
  [
    ...graph.recordsOf('verification-protocol'),
    ...graph.recordsOf('validation-protocol'),
    ...graph.recordsOf('analysis'),
  ].filter((record) => record.status !== 'retired');

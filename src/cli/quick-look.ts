import { evaluateEvidence } from '../evidence/evaluate.ts';
import type { EvidenceResult } from '../evidence/result.ts';
import type { Finding } from '../findings/finding.ts';
import { buildGraph, type TraceGraph } from '../graph/trace-graph.ts';
import { readRecords } from '../records/read-records.ts';
import { readSchemas, type SchemaText } from '../records/schema-set.ts';
import type { SourceFile } from '../records/source-file.ts';

/** What the options say, each figure as it was written. */
export interface QuickLook {
  readonly bytes: Uint8Array;
  readonly column: string;
  /** Unit of the limits; absent where the column and the limits have none. */
  readonly unit?: string;
  /** Unit of the readings, where the heading does not give it. */
  readonly columnUnit?: string;
  readonly lower?: string;
  readonly upper?: string;
  readonly perUnit?: string;
  readonly method: string;
  /** Fields of the plan in YAML: `confidence`, `reliability` and what else the method needs. */
  readonly sampling: Readonly<Record<string, string>>;
  /** Columns of the data by their role, and the decimal sign. */
  readonly data: {
    readonly unit_id?: string;
    readonly lot?: string;
    readonly group?: string;
    readonly decimal: string;
  };
}

export interface QuickLookOutcome {
  readonly graph: TraceGraph;
  readonly result?: EvidenceResult;
  /** The same readings by the method for capability, where there is a confidence and a limit in numbers. */
  readonly capability?: EvidenceResult;
  /** What was wrong with the records in memory: options that no protocol could hold. */
  readonly findings: readonly Finding[];
}

/** Path of the readings in memory: findings that name it are about the user's file. */
export const readingsPath = 'readings.csv';

/** Text as YAML: a JSON string is one. */
const quoted = (text: string): string => JSON.stringify(text);

const entries = (fields: Readonly<Record<string, string | undefined>>): string =>
  Object.entries(fields)
    .flatMap(([name, value]) => (value === undefined ? [] : [`${name}: ${value}`]))
    .join(', ');

const optional = (text: string | undefined): string | undefined =>
  text === undefined ? undefined : quoted(text);

const protocolText = (
  look: QuickLook,
  id: string,
  method: string,
  more: Readonly<Record<string, string>>,
) => `---
id: ${id}
type: verification-protocol
title: Quick look
status: draft
verifies: [DI-01]
method: test
condition: as measured
acceptance:
  - { ${entries({
    characteristic: quoted(look.column),
    unit: optional(look.unit),
    lower: look.lower,
    upper: look.upper,
    per_unit: look.perUnit,
    ...(look.lower === undefined && look.upper === undefined ? { criterion: 'every unit conforms' } : {}),
  })} }
sampling: { ${entries({ kind: method, ...more, rationale: 'Not planned.' })} }
---
## Purpose

## Procedure
`;

const recordText = (look: QuickLook, id: string, protocol: string): string => `---
id: ${id}
type: verification-record
title: Quick look
status: draft
reports: ${protocol}
executed: { from: 2000-01-01, to: 2000-01-01 }
data:
  file: ${readingsPath}
  sha256: "${'0'.repeat(64)}"
${Object.entries(look.data)
  .map(([name, value]) => `  ${name}: ${quoted(value)}\n`)
  .join('')}  columns:
    - { ${entries({ characteristic: quoted(look.column), column: quoted(look.column), unit: optional(look.columnUnit) })} }
result: pass
---
## Conclusion
`;

/**
 * Evaluates readings as `check` does: a protocol and a record are written in memory, read and judged by the same code.
 * Nobody planned them, so the verdict is a look and no evidence.
 */
export const quickLook = (look: QuickLook, schemas: readonly SchemaText[]): QuickLookOutcome => {
  const isMeasured = look.lower !== undefined || look.upper !== undefined;
  const { confidence } = look.sampling;
  const withCapability =
    isMeasured && confidence !== undefined && !['capability', 'equivalence'].includes(look.method);
  const texts: readonly (readonly [string, string])[] = [
    ['plinth.yaml', 'device: { name: none, maker: none }\n'],
    ['VP-01.md', protocolText(look, 'VP-01', look.method, look.sampling)],
    ['VR-01.md', recordText(look, 'VR-01', 'VP-01')],
    ...(withCapability
      ? ([
          // The index only has to be there: what it must reach is nobody's claim, and the verdict is not shown.
          ['VP-02.md', protocolText(look, 'VP-02', 'capability', { confidence, capability_index: '1' })],
          ['VR-02.md', recordText(look, 'VR-02', 'VP-02')],
        ] as const)
      : []),
  ];
  const encoder = new TextEncoder();
  const files: readonly SourceFile[] = [
    ...texts.map(([path, text]) => ({ path, bytes: encoder.encode(text) })),
    { path: readingsPath, bytes: look.bytes },
  ];
  const set = readSchemas(schemas);
  const { records, findings } = readRecords(files, [], set);
  const graph = buildGraph(records, set.types);
  const evidence = evaluateEvidence(graph, new Map(files.map((file) => [file.path, file])));
  const result = evidence.get('VR-01');
  const capability = evidence.get('VR-02');
  return {
    graph,
    findings,
    ...(result ? { result } : {}),
    ...(capability ? { capability } : {}),
  };
};

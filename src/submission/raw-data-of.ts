import { type DataFiles, resolveDataPath } from '../evidence/evaluate.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { TechnicalRecord } from '../records/record.ts';

/** A file of raw data, and the records that name it. */
export interface RawData {
  readonly path: string;
  readonly records: readonly TechnicalRecord[];
}

/** Path of the raw data that a record names, under `data` or `study`; undefined where it names none that is there. */
export const rawDataPath = (record: TechnicalRecord, files: DataFiles): string | undefined => {
  for (const field of ['data', 'study', 'calculation']) {
    const named = record.fields[field];
    const file =
      typeof named === 'object' && named !== null && 'file' in named && typeof named.file === 'string'
        ? named.file
        : undefined;
    const path = file === undefined ? undefined : resolveDataPath(record, file);
    if (path !== undefined && files.has(path)) return path;
  }
  return undefined;
};

/** The raw data of all records of a type that are not retired, each file once. */
export const rawDataOf = (type: string, graph: TraceGraph, files: DataFiles): readonly RawData[] => {
  const found = new Map<string, TechnicalRecord[]>();
  for (const record of graph.records.values()) {
    if (record.type !== type || record.status === 'retired' || !record.sound) continue;
    const path = rawDataPath(record, files);
    if (path === undefined) continue;
    const known = found.get(path);
    if (known) known.push(record);
    else found.set(path, [record]);
  }
  return [...found].map(([path, records]) => ({ path, records }));
};

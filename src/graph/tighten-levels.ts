import type { Finding, Level } from '../findings/finding.ts';
import { isAtLeast } from '../findings/order.ts';
import type { PlinthFields } from '../records/fields.ts';
import type { TraceGraph } from './trace-graph.ts';

const higher = (a: Level, b: Level): Level => (isAtLeast(a, b) ? a : b);

/** Findings with the levels that plinth.yaml raises under `tighten`, by the record that each is mainly about. */
export const tightenLevels = (
  findings: readonly Finding[],
  tighten: PlinthFields['tighten'],
  graph: TraceGraph,
): readonly Finding[] => {
  if (!tighten || tighten.length === 0) return findings;
  return findings.map((finding) => {
    const record = graph.record(finding.records[0] ?? '');
    const level = tighten
      .filter(
        (entry) =>
          entry.code === finding.code &&
          (entry.types === undefined || (record !== undefined && entry.types.includes(record.type))) &&
          (entry.statuses === undefined ||
            (record !== undefined && entry.statuses.some((status) => status === record.status))),
      )
      .reduce<Level>((raised, entry) => higher(raised, entry.level), finding.level);
    return level === finding.level ? finding : { ...finding, level };
  });
};

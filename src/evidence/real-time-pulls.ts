import type { Place } from '../findings/finding.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { monthsLater } from '../records/calendar.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { readRealTimeSchedule } from './calculations/real-time-schedule.ts';
import { conditioningPlans } from './conditioning-tree.ts';

/** A schedule of real-time ageing, of an analysis or of a node of a conditioning plan that has none of its own analysis. */
export interface PullSchedule {
  /** Record that holds the schedule. */
  readonly owner: string;
  /** Of a conditioning plan. */
  readonly node?: string;
  /** For messages: `AN-21` or `CP-01, "real time"`. */
  readonly named: string;
  readonly place: Place;
  readonly pulls: readonly { readonly months: number; readonly due: string; readonly place: Place }[];
  /** Records that say they tested a pull of it. */
  readonly tests: readonly RecordOf<'verification-record'>[];
}

/** All schedules of real-time ageing of a technical file. */
export const pullSchedules = (graph: TraceGraph): readonly PullSchedule[] => {
  const testsOf = (owner: string, node?: string): readonly RecordOf<'verification-record'>[] =>
    graph
      .sources(owner, 'real_time_pull', 'verification-record')
      .filter(({ fields }) => node === undefined || fields.real_time_pull?.node === node);
  const analyses = graph
    .recordsOf('analysis')
    .filter((analysis) => analysis.status !== 'retired')
    .flatMap((analysis): readonly PullSchedule[] => {
      const schedule = readRealTimeSchedule(analysis.fields.calculation.real_time, []);
      if (!schedule) return [];
      const path = ['calculation', 'real_time', 'pulls'] as const;
      return [
        {
          owner: analysis.id,
          named: analysis.id,
          place: placeOf(analysis, ...path),
          pulls: schedule.pulls.map(({ months, due }, index) => ({
            months,
            due,
            place: placeOf(analysis, ...path, index),
          })),
          tests: testsOf(analysis.id),
        },
      ];
    });
  const plans = conditioningPlans(graph).flatMap((plan) =>
    plan.fields.nodes.flatMap(({ step, node, analysis, begins, pulls }, index): readonly PullSchedule[] =>
      step !== 'real-time ageing' || analysis !== undefined || begins === undefined || !pulls
        ? []
        : [
            {
              owner: plan.id,
              node,
              named: `${plan.id}, "${node}"`,
              place: placeOf(plan, 'nodes', index, 'pulls'),
              pulls: pulls.map(({ months }, at) => ({
                months,
                due: monthsLater(begins, months),
                place: placeOf(plan, 'nodes', index, 'pulls', at),
              })),
              tests: testsOf(plan.id, node),
            },
          ],
    ),
  );
  return [...analyses, ...plans];
};

import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf, type RecordOf, type TechnicalRecord } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

interface Event {
  readonly record: TechnicalRecord;
  readonly date: string;
}

const firstApproval = (record: RecordOf<'risk-control'> | RecordOf<'benefit-risk'>): string | undefined =>
  (record.fields.approvals ?? []).map((each) => each.date).toSorted()[0];

/** For each control of a risk: its first approval, and the last day of the tests that show it. */
const evidenceOf = (risk: string, graph: TraceGraph): readonly Event[] =>
  graph
    .sources(risk, 'controls', 'risk-control')
    .filter((control) => control.status !== 'retired')
    .flatMap((control): readonly Event[] => {
      const approved = firstApproval(control);
      const tests = graph
        .linksFrom(control.id, 'shown_by')
        .flatMap(({ to }) => [
          ...graph.sources(to, 'reports', 'verification-record'),
          ...graph.sources(to, 'reports', 'validation-record'),
        ])
        .filter((record) => record.status === 'approved')
        .map((record) => ({ record, date: record.fields.executed.to }));
      return [...(approved === undefined ? [] : [{ record: control, date: approved }]), ...tests];
    });

export const decisionBeforeEvidence = defineCheck({
  code: 'decision-before-evidence',
  level: 'warning',
  title: 'A decision on benefit and risk was taken before the evidence was there',
  basis: 'ISO 14971:2019 7.2 to 7.4 (from memory)',
  explain:
    'The decision is dated before a control of its risks was first approved, or before the end of a test that shows one. What remains of the risk was then a guess, and the decision weighed a guess against the benefit.\n\nTake the decision again on what is there now, with its own date. If the date was mistyped, correct it.',
  examines: 'benefit-risk decisions with a date or an approval',
  subjects: ({ graph }) =>
    graph.recordsOf('benefit-risk').flatMap((decision) => {
      const date = decision.fields.date ?? firstApproval(decision);
      return decision.status === 'retired' || date === undefined ? [] : [{ decision, date }];
    }),
  judge: ({ decision, date }, { graph }): readonly Draft[] => {
    const later = [
      ...new Map(
        decision.fields.decides
          .flatMap((risk) => evidenceOf(risk, graph))
          .filter((event) => event.date > date)
          .map((event) => [event.record.id, event]),
      ).values(),
    ].toSorted((a, b) => (a.date > b.date ? -1 : a.date < b.date ? 1 : 0));
    const [last] = later;
    if (!last) return [];
    return [
      {
        place: placeOf(decision, decision.fields.date === undefined ? 'approvals' : 'date'),
        message: `${decision.id} was decided on ${date}, but ${last.record.id} is of ${last.date}${later.length > 1 ? `, and ${later.length - 1} more are later` : ''}`,
        hint: 'Decide again on what is there now, with its own date.',
        records: [decision.id, ...later.map(({ record }) => record.id)],
        related: later.slice(0, 5).map(({ record, date: day }) => ({
          place: placeOf(record, 'id'),
          message: `${record.id}, ${day}`,
        })),
        data: { decided: date, later: last.date },
      },
    ];
  },
});

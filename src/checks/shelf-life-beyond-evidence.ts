import type { EvidenceResult } from '../evidence/result.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { daysOf, durationOf } from '../records/duration-words.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/** What a record shows of the shelf life, in days. */
interface Shown {
  readonly record: RecordOf<'analysis'> | RecordOf<'verification-record'>;
  readonly days: number;
}

/** Names under which calculations give the time that an ageing stands for. */
const keys = ['real_time', 'equivalent_duration'];

const kinds = ['accelerated-ageing', 'temperature-excursion'];

const shownBy = (graph: TraceGraph, evidence: ReadonlyMap<string, EvidenceResult>): readonly Shown[] => {
  const passed = (id: string): boolean => evidence.get(id)?.verdict === 'pass';
  return [
    ...graph
      .recordsOf('analysis')
      .filter(
        ({ id, status, fields }) =>
          status !== 'retired' && kinds.includes(fields.calculation.kind) && passed(id),
      )
      .flatMap((record): readonly Shown[] => {
        const values = evidence.get(record.id)?.characteristics.flatMap((each) => each.values) ?? [];
        const value = values.find(({ key, unit }) => keys.includes(key) && unit === 'd');
        return value ? [{ record, days: value.value }] : [];
      }),
    ...graph
      .recordsOf('verification-record')
      .filter(({ id, status }) => status !== 'retired' && passed(id))
      .flatMap((record): readonly Shown[] => {
        const months = record.fields.real_time_pull?.months;
        return months === undefined ? [] : [{ record, days: daysOf({ count: months, unit: 'month' }) }];
      }),
  ];
};

export const shelfLifeBeyondEvidence = defineCheck({
  code: 'shelf-life-beyond-evidence',
  level: 'error',
  title: 'The shelf life is longer than what ageing has shown',
  basis:
    'Regulation (EU) 2017/745 Annex I 6 and 7, Annex II 6.1(b); ISO 11607-1 (the stability claim rests on ageing, from memory)',
  explain:
    'plinth.yaml states a shelf life, and no analysis of ageing with the verdict pass and no tested pull of real-time ageing reaches it.\n\nDevices at the end of their printed life are then used in a state that nobody has seen. The date on the label follows from this number.\n\nAge longer, or claim what was shown. Which tests on the aged units bear the claim is followed through the design inputs; here only the time is compared.',
  examines: 'shelf lives of files with analyses of ageing',
  subjects: ({ graph, project, evidence }) => {
    const phrase = project.fields.phrases?.['shelf_life'];
    const claim = durationOf(phrase ?? '');
    const hasAgeing = graph
      .recordsOf('analysis')
      .some(({ status, fields }) => status !== 'retired' && kinds.includes(fields.calculation.kind));
    return claim && hasAgeing ? [{ claim, phrase, shown: shownBy(graph, evidence) }] : [];
  },
  judge: ({ claim, phrase, shown }, { project }): readonly Draft[] => {
    const best = shown.reduce<Shown | undefined>(
      (found, each) => (found && found.days >= each.days ? found : each),
      undefined,
    );
    const wanted = daysOf(claim);
    if (best && best.days >= wanted * (1 - 1e-9)) return [];
    return [
      {
        place: project.yaml.place(['phrases', 'shelf_life']),
        message: best
          ? `the shelf life is ${phrase}, ${wanted} d, and the longest time that ageing has shown is ${Math.floor(best.days)} d (${best.record.id})`
          : `the shelf life is ${phrase}, ${wanted} d, and no ageing with the verdict pass shows any time`,
        hint: best
          ? `Age longer, or claim no more than ${Math.floor(best.days)} d.`
          : 'Show it by ageing before it is claimed.',
        records: best ? [best.record.id] : [],
        related: best ? [{ place: placeOf(best.record), message: `what ${best.record.id} shows` }] : [],
        data: { claimed: wanted, shown: best ? Math.floor(best.days) : 0 },
      },
    ];
  },
});

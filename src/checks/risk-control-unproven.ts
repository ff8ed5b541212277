import { evidenceTypes } from '../evidence/evidence-types.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const riskControlUnproven = defineCheck({
  code: 'risk-control-unproven',
  level: 'warning',
  title: 'The evidence for a risk control has not passed',
  basis: 'Regulation (EU) 2017/745 Annex I 4; ISO 14971:2019 7.2 (from memory)',
  explain:
    'The control names what is to show its effect, but that evidence is not complete: a test is still to come, has failed, does not decide, or was approved before something that it rests on changed. The message gives the weakest part.\n\nThe risk after control counts on the measure. Until the evidence has passed, the low probability in the risk file is a hope.\n\nCarry out what is planned, repeat or argue what is in doubt, and where a test failed, change the measure and test it again.',
  awaits: evidenceTypes,
  examines: 'risk controls with evidence named',
  subjects: ({ graph }) =>
    graph
      .recordsOf('risk-control')
      .filter(
        (control) => control.status !== 'retired' && graph.linksFrom(control.id, 'shown_by').length > 0,
      ),
  judge: (control, { graph, standing }) => {
    const own = standing.get(control.id);
    if (!own || own.state === 'passed') return [];
    const chain = own.because.filter((id) => id !== control.id);
    const last = graph.record(chain.at(-1) ?? '');
    return [
      {
        place: placeOf(control, 'shown_by'),
        message: `the evidence for ${control.id} "${control.title}" is ${own.state}: ${own.reason}`,
        hint:
          chain.length > 0
            ? `Follow the chain ${[control.id, ...chain].join(', ')} and settle what its last record leaves open.`
            : 'Settle what the evidence leaves open.',
        records: [control.id, ...chain],
        related: last ? [{ place: placeOf(last, 'id'), message: own.reason }] : [],
        data: { standing: own.state },
      },
    ];
  },
});

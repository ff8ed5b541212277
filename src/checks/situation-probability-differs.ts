import { plainTerm } from '../evidence/risk-vocabulary.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

const live = ({ graph }: CheckContext): readonly RecordOf<'risk'>[] =>
  graph.recordsOf('risk').filter((risk) => risk.status !== 'retired');

/** What P1 is the probability of. */
const situationOf = ({ fields }: RecordOf<'risk'>): string =>
  JSON.stringify([fields.hazard, fields.sequence, fields.hazardous_situation].map(plainTerm));

export const situationProbabilityDiffers = defineCheck({
  code: 'situation-probability-differs',
  level: 'warning',
  title: 'The same hazardous situation has two probabilities',
  basis: 'common practice, no source: one quantity has one value; ISO/TR 24971 (from memory) for P1',
  explain:
    'Several harms can come of one hazardous situation: each is a risk of its own, with its own P2. P1 is the probability of the situation, and two risks with the same hazard, sequence and situation have the same P1. Here they do not.\n\nOne of the two numbers was changed when the other was not. The risk with the lower one looks better than it is.\n\nUse one P1 for both. Where the sequences differ after all, write down how.',
  examines: 'risks',
  subjects: live,
  judge: (risk, context) => {
    const first = live(context).find((other) => situationOf(other) === situationOf(risk));
    if (!first || first.id === risk.id) return [];
    return (['before', 'after'] as const).flatMap((when) => {
      const own = risk.fields[when].p1;
      const others = first.fields[when].p1;
      if (own === undefined || others === undefined || own === others) return [];
      return [
        {
          place: placeOf(risk, when, 'p1'),
          message: `${risk.id} has P1 ${own} ${when} control, ${first.id} has ${others} for the same hazardous situation`,
          hint: 'Use one P1 for both, or write down how the sequences differ.',
          records: [risk.id, first.id],
          related: [{ place: placeOf(first, when, 'p1'), message: `P1 in ${first.id}` }],
          data: { own, other: others },
        },
      ];
    });
  },
});

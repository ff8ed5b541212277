import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/** Words of a basis that speak of something that cannot happen any more. */
const saysImpossible = /\b(?:cannot|can not|impossible|zero|no longer|gone|removed|left out)\b/i;

export const zeroProbabilityUnexplained = defineCheck({
  code: 'zero-probability-unexplained',
  level: 'warning',
  title: 'A probability of zero has no basis',
  basis: 'common practice, no source: a count without events gives an upper bound, never zero',
  explain:
    'P1 or P2 is 0: the record claims that the hazardous situation, or the harm, cannot happen. No test and no count can show that; three thousand uses without an event still allow one in a thousand (the rule of three). With a zero, the risk falls into the lowest band whatever its severity.\n\nWrite the highest value that the evidence allows. Where something cannot happen because what caused it is gone, say so under `basis` (cannot, gone, removed, no longer), and ask whether the record is still a risk.',
  examines: 'risks',
  subjects: ({ graph }) => graph.recordsOf('risk').filter((risk) => risk.status !== 'retired'),
  judge: (risk) =>
    saysImpossible.test(risk.fields.basis ?? '')
      ? []
      : (['before', 'after'] as const).flatMap((when) =>
          (['p1', 'p2'] as const).flatMap((name): readonly Draft[] =>
            risk.fields[when][name] === 0
              ? [
                  {
                    place: placeOf(risk, when, name),
                    message: `${risk.id} "${risk.title}" has ${name.toUpperCase()} 0 ${when} control, and no basis says why it cannot happen`,
                    hint: 'Write the highest value that the evidence allows, or say under "basis" why it cannot happen.',
                    records: [risk.id],
                  },
                ]
              : [],
          ),
        ),
});

import { claims } from '../evidence/claims.ts';
import { measuredNumbersIn } from '../records/measured-numbers.ts';
import { withoutWordings } from '../records/plain-words.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const claimNumberUnfounded = defineCheck({
  code: 'claim-number-unfounded',
  level: 'error',
  title: 'The numbers of a claim and its limits are not the same',
  basis: 'Regulation (EU) 2017/745 Article 7; the comparison is common practice, no source',
  explain:
    'The wording of the claim has a number with a unit that none of its `limits` has and that belongs to no wording of plinth.yaml; or a limit has a number that the wording does not say.\n\nThe limits are what is compared with the evidence. A number beside them reaches users without ever having been held against anything.\n\nEnter the number as a limit of the characteristic that it speaks of, take the wording from plinth.yaml where it is single-sourced (shelf life, storage), or correct the statement.',
  examines: 'claims',
  subjects: ({ graph }) => claims(graph),
  judge: (claim, { project }): readonly Draft[] => {
    const { wording, limits = [] } = claim.fields;
    const rest = withoutWordings(wording, Object.values(project.fields.phrases ?? {}));
    const limited = new Set(limits.flatMap(({ lower, upper }) => [lower, upper]));
    const numbers = measuredNumbersIn(rest);
    const said = [...wording.matchAll(/\d{1,9}(?:[.,]\d{1,9})?/g)].map(([each]) =>
      Number(each.replace(',', '.')),
    );
    const unfounded = numbers.filter(({ number }) => !limited.has(Number(number.replace(',', '.'))));
    const unsaid = limits.flatMap((limit, index) => {
      const bounds = (['lower', 'upper'] as const).filter((bound) => {
        const value = limit[bound];
        return value !== undefined && !said.includes(value);
      });
      return bounds.length === 0 ? [] : [{ limit, index, bounds }];
    });
    // As many limits that are not said as numbers that have no limit: each is the other one, written otherwise.
    const isSame = unsaid.flatMap(({ bounds }) => bounds).length === unfounded.length;
    return [
      ...(isSame ? [] : unfounded).map(({ number, text }) => ({
        place: placeOf(claim, 'wording'),
        message: `${claim.id} claims "${text}", and none of its limits has ${number}`,
        hint: 'Enter it under "limits", so that it is held against the evidence, or take it out.',
        records: [claim.id],
        data: { number },
      })),
      ...unsaid.map(({ limit, index, bounds }): Draft => {
        const [first = 'lower'] = bounds;
        const values = bounds.map((bound) => claim.yaml.written(['limits', index, bound]) ?? limit[bound]);
        return {
          place: placeOf(claim, 'limits', index, first),
          message: `${claim.id} limits "${limit.characteristic}" to ${values.join(' and ')}, which its wording does not say${isSame ? `; it says ${unfounded.map(({ number }) => number).join(' and ')}` : ''}`,
          hint: 'Enter the number that the statement gives, in its unit.',
          records: [claim.id],
        };
      }),
    ];
  },
});

import { placeOf } from '../records/record.ts';
import { unitConverter } from '../records/units.ts';
import { termOfUse } from '../regulation/classification-rules.ts';
import { type Draft, defineCheck } from './check.ts';

export const useDurationDiffers = defineCheck({
  code: 'use-duration-differs',
  level: 'error',
  title: 'The stated time of use does not fit the term by which the device is classified',
  basis: 'Regulation (EU) 2017/745 Annex VIII 1.1 to 1.3',
  explain:
    'The classification works with a term (transient, short term, long term), and the longest continuous use that it states lies in another one: transient is less than 60 minutes, short term from there to 30 days, long term more. Or the unit is no unit of time.\n\nRules 5 to 8 give another class for each term, and the biological evaluation goes by the time of contact.\n\nCorrect the time or the term. Interruptions within a procedure count in (Annex VIII 3.6).',
  examines: 'classifications',
  subjects: ({ graph }) => graph.recordsOf('classification').filter((record) => record.status !== 'retired'),
  judge: (record): readonly Draft[] => {
    const { term, longest } = record.fields.duration;
    const written = `${record.yaml.written(['duration', 'longest', 'value']) ?? longest.value} ${longest.unit}`;
    const minutes = unitConverter(longest.unit, 'min')?.(longest.value);
    if (minutes === undefined)
      return [
        {
          place: placeOf(record, 'duration', 'longest', 'unit'),
          message: `${record.id} states the longest use as ${written}, and "${longest.unit}" is no unit of time`,
          hint: 'Use min, h or d.',
          records: [record.id],
        },
      ];
    const found = termOfUse(minutes);
    if (found === term) return [];
    return [
      {
        place: placeOf(record, 'duration', 'term'),
        message: `${record.id} is classified by ${term} use, but the longest use of ${written} is ${found}`,
        hint: 'Correct the time or the term; another term may give another class.',
        records: [record.id],
        related: [{ place: placeOf(record, 'duration', 'longest'), message: `longest use: ${written}` }],
        data: { term, longest: written },
      },
    ];
  },
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const useSpecificationMissing = defineCheck({
  code: 'use-specification-missing',
  level: 'warning',
  title: 'Studies with users rest on no use specification, or on several',
  basis: 'IEC 62366-1:2015 5.1 (from memory); Regulation (EU) 2017/745 Annex I 5',
  explain:
    'There are use scenarios or approved studies with users, and no record says who the users are, on whom, where and how the device is used; or there are several such records, which can contradict each other. Whether the participants of a study stand for the users cannot be judged then.\n\nAdd one record of the type use-specification, or retire all but one.',
  examines: 'use scenarios and approved studies with users',
  subjects: ({ graph }) =>
    [
      ...graph.recordsOf('use-scenario').filter((record) => record.status !== 'retired'),
      ...graph.recordsOf('validation-protocol').filter((record) => record.status === 'approved'),
    ].slice(0, 1),
  judge: (first, { graph }) => {
    const [one, ...more] = graph
      .recordsOf('use-specification')
      .filter((record) => record.status !== 'retired');
    if (!one)
      return [
        {
          place: placeOf(first, 'id'),
          message: `${first.id} and whatever else has to do with users rest on no use specification`,
          hint: 'Add one with "plinth new use-specification".',
          records: [first.id],
        },
      ];
    return more.map((other) => ({
      place: placeOf(other, 'id'),
      message: `${other.id} is a second use specification beside ${one.id}`,
      hint: 'Keep one of them and retire the other.',
      records: [other.id, one.id],
    }));
  },
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const useSpecificationMissing = defineCheck({
  code: 'use-specification-missing',
  level: 'warning',
  title: 'Use is studied, but no use specification says who uses the device and where',
  basis: 'IEC 62366-1:2015 with Amendment 1:2020, 5.1 (from memory)',
  explain:
    'There are validation protocols or use scenarios, and no record of the type use-specification. It says for which indication, on which patients and part of the body, by which groups of users, in which environment and by which principle the device is used.\n\nUser groups and tasks of a study are chosen from it. Without it nobody can tell whether a group is missing, or whether the simulated room is like the real one.\n\nWrite one use specification, with what marks each group of users, and have it approved before the studies.',
  awaits: ['use-specification'],
  awaitsAnywhere: true,
  examines: 'validation protocols and use scenarios',
  subjects: ({ graph }) => {
    const [first] = [...graph.recordsOf('validation-protocol'), ...graph.recordsOf('use-scenario')].filter(
      (record) => record.status !== 'retired',
    );
    return first ? [first] : [];
  },
  judge: (first, { graph }) =>
    graph.recordsOf('use-specification').some((record) => record.status !== 'retired')
      ? []
      : [
          {
            place: placeOf(first),
            message: `${first.id} deals with use of the device, and the file has no use specification in force`,
            hint: 'Add a record of the type use-specification: indication, patients, part of the body, user groups, environment, operating principle.',
            records: [first.id],
          },
        ],
});

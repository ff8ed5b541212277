import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const userGroupUnknown = defineCheck({
  code: 'user-group-unknown',
  level: 'warning',
  title: 'A user group is not in the use specification',
  basis: 'IEC 62366-1:2015 with Amendment 1:2020, 5.1 (from memory)',
  explain:
    'A use scenario or the protocol of a study names a group of users that the use specification does not have. Groups are named by their short names (UG1), which must be the same everywhere.\n\nResults of people who are not among the intended users show little about those who are.\n\nCorrect the name, or describe the group in the use specification. Where there is no use specification, this check has nothing to compare with.',
  examines: 'user groups of protocols and scenarios',
  subjects: ({ graph }) => {
    const specifications = graph
      .recordsOf('use-specification')
      .filter((record) => record.status !== 'retired');
    if (specifications.length === 0) return [];
    const known = specifications.flatMap(({ fields }) => fields.user_groups.map(({ group }) => group));
    return [
      ...graph
        .recordsOf('validation-protocol')
        .filter((record) => record.status !== 'retired')
        .flatMap((record) =>
          record.fields.user_groups.map(({ group }, index) => ({
            record: { id: record.id, place: placeOf(record, 'user_groups', index, 'group') },
            group,
            known,
            specifications,
          })),
        ),
      ...graph
        .recordsOf('use-scenario')
        .filter((record) => record.status !== 'retired')
        .flatMap((record) =>
          record.fields.user_groups.map((group, index) => ({
            record: { id: record.id, place: placeOf(record, 'user_groups', index) },
            group,
            known,
            specifications,
          })),
        ),
    ];
  },
  judge: ({ record, group, known, specifications }): readonly Draft[] =>
    known.includes(group)
      ? []
      : [
          {
            place: record.place,
            message: `${record.id} names the user group "${group}", the use specification has ${known.join(', ')}`,
            hint: `Use one of ${known.join(', ')}, or describe the group in ${specifications[0]?.id}.`,
            records: [record.id, ...specifications.map(({ id }) => id)],
            related: specifications.map((each) => ({
              place: placeOf(each, 'user_groups'),
              message: `groups of ${each.id}`,
            })),
            data: { group },
          },
        ],
});

import { nearestName } from '../records/nearest-name.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

type WithGroups = RecordOf<'use-scenario'> | RecordOf<'validation-protocol'>;

const groupsOf = (record: WithGroups): readonly string[] =>
  record.type === 'use-scenario'
    ? (record as RecordOf<'use-scenario'>).fields.user_groups
    : (record as RecordOf<'validation-protocol'>).fields.user_groups.map(({ group }) => group);

export const userGroupUnknown = defineCheck({
  code: 'user-group-unknown',
  level: 'error',
  title: 'A group of users is not in the use specification',
  basis: 'Regulation (EU) 2017/745 Annex I 5(b) (intended users)',
  explain:
    'A use scenario or a protocol names a group of users that the use specification does not have. Either a group takes part that is not among the intended users, or the specification leaves one out; what a study with it shows is then open.\n\nCorrect the short name, or describe the group in the use specification.',
  examines: 'use scenarios and protocols of studies with users',
  subjects: ({ graph }): readonly WithGroups[] =>
    graph.recordsOf('use-specification').some((record) => record.status !== 'retired')
      ? [...graph.recordsOf('use-scenario'), ...graph.recordsOf('validation-protocol')].filter(
          (record) => record.status !== 'retired',
        )
      : [],
  judge: (record, { graph }): readonly Draft[] => {
    const specifications = graph.recordsOf('use-specification').filter((each) => each.status !== 'retired');
    const known = specifications.flatMap((each) => each.fields.user_groups.map(({ group }) => group));
    return groupsOf(record).flatMap((group, index): readonly Draft[] => {
      if (known.includes(group)) return [];
      const near = nearestName(group, known);
      return [
        {
          place: placeOf(record, 'user_groups', index),
          message: `${record.id} names the group ${group}, which ${specifications.map((each) => each.id).join(', ')} does not have`,
          hint: near ? `Did you mean "${near}"?` : `The groups are: ${known.join(', ')}.`,
          records: [record.id, ...specifications.map((each) => each.id)],
        },
      ];
    });
  },
});

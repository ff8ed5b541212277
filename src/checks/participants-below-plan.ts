import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const participantsBelowPlan = defineCheck({
  code: 'participants-below-plan',
  level: 'error',
  title: 'Fewer participants than planned took part in a study',
  basis: 'ISO 13485:2016 7.3.7',
  explain:
    'The protocol plans a number of participants for each user group. The raw data, without excluded participants, hold fewer of a group, or hold a group that the protocol does not know.\n\nUser groups make different errors, so one group cannot stand in for another; a group that is too small may not show a problem that many users would have. The plan was approved with its number and the reason for it.\n\nLet more participants take part under the same protocol, or record a deviation that says what the lower number means, amend the protocol and have it approved. Correct a misspelt group in the record or protocol, never in the raw data.',
  examines: 'validation records with data',
  subjects: ({ graph, evidence }) =>
    graph
      .recordsOf('validation-record')
      .filter((record) => record.status !== 'retired' && evidence.get(record.id)?.groups !== undefined),
  judge: (record, { graph, evidence }) => {
    const protocol = graph.recordOf('validation-protocol', record.fields.reports);
    const result = evidence.get(record.id);
    if (!protocol || !result?.groups) return [];
    const planned = protocol.fields.user_groups;
    const { group: column } = record.fields.data;
    const only = planned.length === 1 ? planned[0]?.group : undefined;
    if (column === undefined && only === undefined)
      return [
        {
          place: placeOf(record, 'data'),
          message: `${record.id} names no column for the user group, though ${protocol.id} plans ${planned.length} groups`,
          hint: 'Add "group" under data: the column that names the group of each participant.',
          records: [record.id, protocol.id],
        },
      ];
    const counts =
      column === undefined && only !== undefined ? new Map([[only, result.unitCount]]) : result.groups;
    const drafts: Draft[] = [];
    for (const [index, { group, name, participants }] of planned.entries()) {
      const count = counts.get(group) ?? 0;
      if (count >= participants) continue;
      drafts.push({
        place: placeOf(record, 'data', column === undefined ? 'file' : 'group'),
        message: `${record.id} has ${count} participants of group ${group}${name ? ` (${name})` : ''}, planned ${participants}`,
        hint: 'Let more participants take part, or record a deviation and amend the protocol.',
        records: [record.id, protocol.id],
        related: [
          {
            place: placeOf(protocol, 'user_groups', index, 'participants'),
            message: `${protocol.id} plans ${participants}`,
          },
        ],
        data: { group, participants: count, planned: participants },
      });
    }
    for (const [group, count] of counts)
      if (!planned.some((each) => each.group === group))
        drafts.push({
          place: placeOf(record, 'data', 'group'),
          message: `${record.id} has ${count} participants of group "${group}", which ${protocol.id} does not plan`,
          hint: `The groups planned are ${planned.map((each) => each.group).join(', ')}: correct the protocol, or record a deviation.`,
          records: [record.id, protocol.id],
          related: [{ place: placeOf(protocol, 'user_groups'), message: `groups of ${protocol.id}` }],
          data: { group, participants: count },
        });
    return drafts;
  },
});

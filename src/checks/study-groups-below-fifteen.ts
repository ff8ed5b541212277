import { problemDiscovery } from '../evidence/problem-discovery.ts';
import { isSummative } from '../evidence/use-scenarios.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Participants for each user group that FDA's guidance on human factors of February 2016 names as the least. */
const usualParticipants = 15;

export const studyGroupsBelowFifteen = defineCheck({
  code: 'study-groups-below-fifteen',
  level: 'warning',
  title: 'A summative study plans fewer than fifteen participants of a user group',
  basis:
    'Common practice: FDA guidance on human factors of 3 February 2016, at least 15 participants for each user group, traced to Faulkner 2003; IEC 62366-1 fixes no number (from memory)',
  explain:
    'The protocol is summative and plans fewer than fifteen participants of a group. The number is guidance and custom, no law: with fifteen, a problem that one user in ten has is seen at least once with a probability of 0.794, computed as 1-(1-p)^n. That is a chance of meeting a problem, never a proof that there is none.\n\nA smaller group can be right, for rare experts for instance, but a reviewer will ask.\n\nPlan fifteen of each group, or give the reason in the rationale of the sampling and accept the finding with a waiver that repeats it.',
  examines: 'user groups of summative protocols',
  subjects: ({ graph }) =>
    graph
      .recordsOf('validation-protocol')
      .filter((record) => record.status !== 'retired' && isSummative(record))
      .flatMap((protocol) => protocol.fields.user_groups.map((group, index) => ({ protocol, group, index }))),
  judge: ({ protocol, group: { group, participants }, index }) => {
    if (participants >= usualParticipants) return [];
    const chance = problemDiscovery(participants, [0.1])[0]?.probability ?? 0;
    return [
      {
        place: placeOf(protocol, 'user_groups', index, 'participants'),
        message: `${protocol.id} plans ${participants} participants of group ${group}, usual are at least ${usualParticipants}; a problem of one user in ten would be seen with a probability of ${chance.toFixed(3)}`,
        hint: `Plan ${usualParticipants} participants of group ${group}, or accept the finding with a waiver that gives the reason.`,
        records: [protocol.id],
        data: { group, participants, usual: usualParticipants },
      },
    ];
  },
});

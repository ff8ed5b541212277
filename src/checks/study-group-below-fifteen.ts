import { problemDiscovery } from '../evidence/problem-discovery.ts';
import { isSummative } from '../evidence/use-scenarios.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Participants of each group in summative studies (FDA guidance on human factors, 2016, as second-hand sources have it). */
const fewest = 15;

export const studyGroupBelowFifteen = defineCheck({
  code: 'study-group-below-fifteen',
  level: 'warning',
  title: 'A group of a summative study has fewer than fifteen participants',
  basis:
    'common practice, no source: the number is that of the guidance of FDA on human factors (2016), known second-hand; IEC 62366-1 names none',
  explain:
    'Fifteen participants in each group of users is what reviewers expect of a summative study. No law asks for it, and it is no test of statistics: with fifteen, a problem that one user in ten has is seen at least once in four studies of five.\n\nPlan fifteen, or accept the finding with the reason why fewer do: few users in the world, groups that do the same tasks.',
  examines: 'groups of approved summative studies',
  subjects: ({ graph }) =>
    graph
      .recordsOf('validation-protocol')
      .filter((protocol) => protocol.status === 'approved' && isSummative(protocol))
      .flatMap((protocol) => protocol.fields.user_groups.map((group, index) => ({ protocol, group, index }))),
  judge: ({ protocol, group, index }) => {
    if (group.participants >= fewest) return [];
    const [tenth] = problemDiscovery(group.participants, [0.1]);
    return [
      {
        place: placeOf(protocol, 'user_groups', index, 'participants'),
        message: `${protocol.id} plans ${group.participants} participants of group ${group.group}, usual are ${fewest}; a problem of one user in ten is seen with probability ${tenth?.probability.toFixed(2)}`,
        hint: `Plan ${fewest}, or accept the finding with a reason.`,
        records: [protocol.id],
      },
    ];
  },
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const useScenarioWithoutRisk = defineCheck({
  code: 'use-scenario-without-risk',
  level: 'warning',
  title: 'A hazard-related use scenario names no risk',
  basis: 'IEC 62366-1:2015 with Amendment 1:2020, 5.4; ISO 14971:2019 5.4 (both from memory)',
  explain:
    'The scenario lists use errors, and its list of `risks` is empty or holds only retired ones. A scenario is there because a use error can lead to harm; the harm, its severity and its probability are estimated in a risk.\n\nWithout the link nobody can say whether the task is critical, and a change of the risk does not reach the study.\n\nName the risks that the use errors lead to, or add the risk that is missing. If no harm can follow, retire the scenario.',
  examines: 'use scenarios',
  subjects: ({ graph }) => graph.recordsOf('use-scenario').filter((record) => record.status !== 'retired'),
  judge: (scenario, { graph }) => {
    const named = scenario.fields.risks;
    if (named.some((id) => graph.record(id)?.status !== 'retired')) return [];
    return [
      {
        place: placeOf(scenario, 'risks'),
        message:
          named.length === 0
            ? `${scenario.id} "${scenario.title}" names no risk`
            : `${scenario.id} "${scenario.title}" names only retired risks: ${named.join(', ')}`,
        hint: 'Name the risks that its use errors lead to, or retire the scenario if none can cause harm.',
        records: [scenario.id],
      },
    ];
  },
});

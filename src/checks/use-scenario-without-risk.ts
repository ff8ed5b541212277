import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const useScenarioWithoutRisk = defineCheck({
  code: 'use-scenario-without-risk',
  level: 'warning',
  title: 'A use scenario names no risk',
  basis: 'IEC 62366-1:2015 5.4 (from memory); Regulation (EU) 2017/745 Annex I 5',
  explain:
    'A hazard-related use scenario is one in which a use error can lead to harm. This one names no risk that is not retired, so nobody knows what harm, and whether the task is critical cannot follow from a severity.\n\nName the risks that its use errors start or go on with, or retire the scenario where no harm can follow.',
  examines: 'use scenarios',
  subjects: ({ graph }) => graph.recordsOf('use-scenario').filter((record) => record.status !== 'retired'),
  judge: (scenario, { graph }) =>
    graph.targets(scenario.id, 'risks', 'risk').some((risk) => risk.status !== 'retired')
      ? []
      : [
          {
            place: placeOf(scenario, 'risks'),
            message: `${scenario.id} "${scenario.title}" names no risk that its use errors lead to`,
            hint: 'Name the risks, or retire the scenario where no harm can follow.',
            records: [scenario.id],
          },
        ],
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const surveillanceThresholdsMissing = defineCheck({
  code: 'surveillance-thresholds-missing',
  level: 'warning',
  title: 'A surveillance plan sets no threshold',
  basis:
    'Regulation (EU) 2017/745 Annex III 1.1(b) (indicators and threshold values for the reassessment of benefit and risk)',
  explain:
    'The surveillance plan names its sources, and under `thresholds` it says for no risk from what number of events or what rate on it is looked at again. The band that is claimed for the probability of a harm still counts, but it speaks only after enough units are sold, and not of a single event that must not happen.\n\nWithout a threshold set before the first sale, what counts as too many is decided when the complaints are already there. Reviewers ask for the values and where they come from.\n\nAdd `thresholds`: for each risk whose harm is serious a number of events, otherwise a rate. A person sets them; the tool only holds the data against them.',
  awaits: ['surveillance-plan'],
  examines: 'surveillance plans',
  subjects: ({ graph }) => graph.recordsOf('surveillance-plan').filter((plan) => plan.status !== 'retired'),
  judge: (plan, { graph }) => {
    const plans = graph.recordsOf('surveillance-plan').filter((each) => each.status !== 'retired');
    // Plans that share the work may leave the thresholds to one of them.
    if (plans.some((each) => (each.fields.thresholds ?? []).length > 0) || plan !== plans[0]) return [];
    return [
      {
        place: placeOf(plan, 'sources'),
        message: `${plans.map((each) => each.id).join(', ')} ${plans.length === 1 ? 'sets' : 'set'} no threshold from which a risk is looked at again`,
        hint: 'Add "thresholds" with a number of events or a rate for the risks that the sources tell of.',
        records: plans.map((each) => each.id),
      },
    ];
  },
});

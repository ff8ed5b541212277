import { currentDesignPlans } from '../evidence/gates.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const designPlanIncomplete = defineCheck({
  code: 'design-plan-incomplete',
  level: 'warning',
  title: 'A design plan leaves out what it has to say',
  basis: 'ISO 13485:2016 7.3.2',
  explain:
    'A design plan names its stages with their reviews, the activities of verification, validation and transfer in each, who is responsible, how outputs are traced to inputs, and which resources and competence are needed. This one leaves out the method of tracing, the resources, or the activities or days of a stage.\n\nWithout a planned method, tracing is what somebody remembers; without named competence, nobody notices that the person who could judge a result has left.\n\nAdd the field that the finding names.',
  examines: 'design plans',
  subjects: ({ graph }) => currentDesignPlans(graph),
  judge: (plan) => {
    const { tracing, resources, stages } = plan.fields;
    const missing = [
      ...(tracing === undefined
        ? [{ at: [], what: 'how outputs are traced to inputs', field: 'tracing' }]
        : []),
      ...(resources === undefined
        ? [{ at: [], what: 'which resources and competence are needed', field: 'resources' }]
        : []),
      ...stages.flatMap(({ stage, activities, planned }, index) => [
        ...((activities ?? []).length > 0
          ? []
          : [{ at: ['stages', index], what: `what is done in the stage "${stage}"`, field: 'activities' }]),
        ...(planned === undefined
          ? [{ at: ['stages', index], what: `when the stage "${stage}" is planned`, field: 'planned' }]
          : []),
      ]),
    ];
    return missing.map(({ at, what, field }) => ({
      place: placeOf(plan, ...at),
      message: `${plan.id} does not say ${what}`,
      hint: `Add "${field}".`,
      records: [plan.id],
      data: { field },
    }));
  },
});

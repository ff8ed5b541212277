import { currentDesignPlans } from '../evidence/gates.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const stageWithoutResponsibility = defineCheck({
  code: 'stage-without-responsibility',
  level: 'warning',
  title: 'Nobody answers for a stage of the design plan',
  basis: 'ISO 13485:2016 7.3.2',
  explain:
    'A stage of the design plan names no role that is responsible for it, or its gate no role that decides. The plan is to say who answers for design and development, and who has the authority to decide.\n\nWhat everybody does in a small team, nobody checks. The role that decides is the one that an auditor asks.\n\nAdd `responsible` to the stage, and `decided_by` to its gate.',
  examines: 'stages of design plans',
  subjects: ({ graph }) =>
    currentDesignPlans(graph).flatMap((plan) =>
      plan.fields.stages.map((stage, index) => ({ plan, stage, index })),
    ),
  judge: ({ plan, stage, index }) => [
    ...((stage.responsible ?? []).length > 0
      ? []
      : [
          {
            place: placeOf(plan, 'stages', index),
            message: `${plan.id}: the stage "${stage.stage}" names nobody who is responsible`,
            hint: 'Add the roles under "responsible".',
            records: [plan.id],
          },
        ]),
    ...((stage.gate.decided_by ?? []).length > 0
      ? []
      : [
          {
            place: placeOf(plan, 'stages', index, 'gate'),
            message: `${plan.id}: gate ${stage.gate.gate} names nobody who decides`,
            hint: 'Add the roles under "decided_by".',
            records: [plan.id],
          },
        ]),
  ],
});

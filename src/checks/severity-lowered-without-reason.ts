import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const severityLoweredWithoutReason = defineCheck({
  code: 'severity-lowered-without-reason',
  level: 'warning',
  title: 'A risk is less severe after control, and nothing says why',
  basis: 'common practice, no source',
  explain:
    'The severity after control is lower than before, and `after.severity_reason` is empty. Most measures make a harm rarer; few make it slighter. An edge that is rounded may bruise where it cut. A warning changes nothing in the wound.\n\nA lower severity moves a risk further into the acceptable part of the matrix than any test could. That makes it the step that a reviewer looks at first.\n\nSay which measure makes the harm less grave and how that was shown, or leave the severity as it is before control.',
  examines: 'risks with a severity after control',
  subjects: ({ graph }) =>
    graph
      .recordsOf('risk')
      .filter((risk) => risk.status !== 'retired' && risk.fields.after.severity !== undefined),
  judge: (risk, { project }) => {
    const classes = project.fields.risk?.severities.map((each) => each.class) ?? [];
    const { severity: before, after } = risk.fields;
    const lowered = classes.indexOf(after.severity ?? before) < classes.indexOf(before);
    if (!lowered || (after.severity_reason ?? '').trim() !== '') return [];
    return [
      {
        place: placeOf(risk, 'after', 'severity'),
        message: `${risk.id} has the severity ${after.severity} after control, ${before} before, without a reason`,
        hint: 'Add "severity_reason" under "after", or leave the severity as it is before control.',
        records: [risk.id],
        related: [{ place: placeOf(risk, 'severity'), message: 'before control' }],
      },
    ];
  },
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const riskControlNotVerified = defineCheck({
  code: 'risk-control-not-verified',
  level: 'error',
  title: 'Nothing shows that a risk control works',
  basis: 'Regulation (EU) 2017/745 Annex I 4; ISO 14971:2019 7.2 (from memory)',
  explain:
    'The control names no protocol or analysis under `shown_by`. That it is drawn, printed or built in shows that it is there; whether it lowers the risk is a second question, and the standard asks for both.\n\nA control that was never tried may not work, and the risk that was written down as low may still be high for the patient.\n\nPlan a test, a study with users or an analysis that would fail if the control did not work, and name it under `shown_by`.',
  examines: 'risk controls',
  subjects: ({ graph }) => graph.recordsOf('risk-control').filter((control) => control.status !== 'retired'),
  judge: (control) =>
    (control.fields.shown_by ?? []).length > 0
      ? []
      : [
          {
            place: placeOf(control, control.fields.shown_by ? 'shown_by' : 'id'),
            message: `${control.id} "${control.title}" has no evidence that it works: shown_by names nothing`,
            hint: 'Name the protocol or analysis that shows the effect under "shown_by".',
            records: [control.id, ...control.fields.controls],
          },
        ],
});

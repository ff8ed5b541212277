import { carriersOf, touches } from '../evidence/control-basis.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const controlShownByUnrelated = defineCheck({
  code: 'control-shown-by-unrelated',
  level: 'warning',
  title: 'What is to show a risk control has nothing to do with what carries it',
  basis: 'ISO 14971:2019 7.2 (from memory); common practice, no source, for what counts as related',
  explain:
    'The control names a protocol or analysis under `shown_by`, and that record names neither an input or output that puts the control into effect (`implemented_by`), nor one that belongs to these, nor an input that derives from the risk. An inspection of the label may pass and say nothing of the depth of a tooth.\n\nWhatever passes there, the control stands as shown to work.\n\nName the evidence that would fail if the control did not work, or complete the links of the protocol: `verifies`, `tests` or `uses`. Where the link is real and cannot be seen from the records, say how under `shown_by_reason`.',
  awaits: ['design-input', 'verification-protocol'],
  examines: 'evidence of risk controls that say what carries them',
  subjects: ({ graph }) =>
    graph
      .recordsOf('risk-control')
      .filter((control) => control.status !== 'retired' && (control.fields.implemented_by ?? []).length > 0)
      .flatMap((control) =>
        (control.fields.shown_by ?? []).flatMap((id, index) =>
          graph.record(id) ? [{ control, id, index }] : [],
        ),
      ),
  judge: ({ control, id, index }, { graph }): readonly Draft[] => {
    if ((control.fields.shown_by_reason ?? '').trim() !== '') return [];
    const carriers = carriersOf(control, graph);
    if (touches(id, carriers, graph)) return [];
    return [
      {
        place: placeOf(control, 'shown_by', index),
        message: `${control.id} "${control.title}" is to be shown by ${id}, which has nothing to do with ${(control.fields.implemented_by ?? []).join(', ')}`,
        hint: `Name the evidence that would fail without the measure, complete the links of ${id}, or say how it shows the effect under "shown_by_reason".`,
        records: [control.id, id],
      },
    ];
  },
});

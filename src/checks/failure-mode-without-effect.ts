import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const failureModeWithoutEffect = defineCheck({
  code: 'failure-mode-without-effect',
  level: 'warning',
  title: 'A failure mode leads to no risk and does not say why no harm follows',
  basis: 'ISO 14971:2019 5.4 (from memory); common practice for failure mode tables',
  explain:
    'A failure mode has neither `risks` nor `no_harm`. The table is one way to find hazardous situations; what it finds is estimated and controlled in the risks, not in the table. A mode that leads nowhere is either a risk that was overlooked or one that somebody has thought harmless without writing it down.\n\nName the risks that its effect leads to, add the risk that is missing, or write under `no_harm` why no harm can follow.',
  examines: 'failure modes',
  subjects: ({ graph }) =>
    graph
      .recordsOf('failure-modes')
      .filter((record) => record.status !== 'retired')
      .flatMap((record) => record.fields.modes.map((mode, index) => ({ record, mode, index }))),
  judge: ({ record, mode, index }) =>
    (mode.risks ?? []).length > 0 || (mode.no_harm ?? '').trim() !== ''
      ? []
      : [
          {
            place: placeOf(record, 'modes', index),
            message: `${record.id}, failure mode ${index + 1} of ${mode.output ?? mode.item ?? 'no named item'}, "${mode.failure_mode}", names neither a risk nor a reason why no harm follows`,
            hint: 'Add "risks", or "no_harm" with the reason.',
            records: [record.id, ...(mode.output === undefined ? [] : [mode.output])],
          },
        ],
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const riskControlNotImplemented = defineCheck({
  code: 'risk-control-not-implemented',
  level: 'error',
  title: 'A risk control is not put into effect anywhere',
  basis: 'Regulation (EU) 2017/745 Annex I 4; ISO 14971:2019 7.2 (from memory)',
  explain:
    'The control names no design output or design input under `implemented_by`. It is an intention: no drawing, artwork, process or requirement carries it.\n\nA measure that stands only in the risk file is not built, or is lost with the next change of the drawing, because nobody who changes the drawing can see it. The patient then meets the risk without the measure.\n\nName the drawing, label, process or requirement that carries the measure; if there is none, add it there first.',
  examines: 'risk controls',
  subjects: ({ graph }) => graph.recordsOf('risk-control').filter((control) => control.status !== 'retired'),
  judge: (control) =>
    (control.fields.implemented_by ?? []).length > 0
      ? []
      : [
          {
            place: placeOf(control, control.fields.implemented_by ? 'implemented_by' : 'id'),
            message: `${control.id} "${control.title}" is put into effect nowhere: implemented_by names nothing`,
            hint: 'Name the design output or design input that carries the measure under "implemented_by".',
            records: [control.id, ...control.fields.controls],
          },
        ],
});

import { carriersOf, touches } from '../evidence/control-basis.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const controlNotSeenInPlace = defineCheck({
  code: 'control-not-seen-in-place',
  level: 'warning',
  title: 'Nobody has seen a risk control in place',
  basis: 'ISO 14971:2019 7.2 (from memory)',
  explain:
    'A control is verified twice: that it was put into effect, and that it works. This one says what carries it (`implemented_by`) and perhaps what shows its effect (`shown_by`), but under `in_place` nobody says what was looked at to see that it is there; or the inspection that is named there failed; or what is named there has nothing to do with what carries the control.\n\nA measure can be on the drawing and not in the part, in the procedure and not at the machine. A test of units made by hand shows that it would work, not that it is in what is sold.\n\nLook at the drawing in force, the artwork, the process record or the first units, and write under `in_place` what was seen and in which record.',
  examines: 'risk controls',
  subjects: ({ graph }) => graph.recordsOf('risk-control').filter((control) => control.status !== 'retired'),
  judge: (control, { evidence, graph }) => {
    const { in_place } = control.fields;
    if (!in_place)
      return [
        {
          place: placeOf(control, 'id'),
          message: `${control.id} "${control.title}" does not say where it was seen to be in place`,
          hint: 'Add "in_place" with what was seen, and under "seen_in" where.',
          records: [control.id],
        },
      ];
    const carriers = carriersOf(control, graph);
    const apart =
      (control.fields.implemented_by ?? []).length > 0 &&
      in_place.seen_in.length > 0 &&
      !in_place.seen_in.some((id) => touches(id, carriers, graph));
    if (apart)
      return [
        {
          place: placeOf(control, 'in_place', 'seen_in'),
          message: `${control.id} "${control.title}" is put into effect by ${(control.fields.implemented_by ?? []).join(', ')} and was seen in ${in_place.seen_in.join(', ')}, which have nothing to do with these`,
          hint: 'Name the drawing, label, process or record in which the measure was seen.',
          records: [control.id, ...in_place.seen_in],
        },
      ];
    const failed = in_place.seen_in.filter((id) => evidence.get(id)?.verdict === 'fail');
    return failed.length === 0
      ? []
      : [
          {
            place: placeOf(control, 'in_place'),
            message: `${control.id} "${control.title}" is to be seen in place in ${failed.join(', ')}, whose verdict is fail, not pass`,
            hint: 'Name a record in which the measure was seen, or put it into effect and look again.',
            records: [control.id, ...failed],
          },
        ];
  },
});

import { firstUncoveredDay } from '../records/period.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const equipmentOutOfCalibration = defineCheck({
  code: 'equipment-out-of-calibration',
  level: 'error',
  title: 'Equipment was used outside its calibration',
  basis: 'ISO 13485:2016 7.6',
  explain:
    'On at least one day of the work, no calibration certificate of the equipment was valid, so the readings of that day cannot be trusted, nor what was concluded from them. One finding is given for each piece of equipment, with every record that it touches: the question is always how far back the doubt reaches.\n\nIf a certificate exists, add it under `calibrations`. If not, have the equipment calibrated now and look back: found within tolerance, a deviation can justify the readings; found outside, the affected records have to be assessed and, if need be, repeated.',
  examines: 'equipment used in verification records',
  subjects: ({ graph }) =>
    graph
      .recordsOf('equipment')
      .filter((equipment) => graph.sources(equipment.id, 'equipment', 'verification-record').length > 0),
  judge: (equipment, { graph }) => {
    const { tag, calibrations } = equipment.fields;
    const affected = graph
      .sources(equipment.id, 'equipment', 'verification-record')
      .flatMap((record) => {
        const day = firstUncoveredDay(record.fields.executed, calibrations);
        return day === undefined ? [] : [{ record, day }];
      })
      .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
    const [first, ...others] = affected;
    if (!first) return [];
    const { record, day } = first;
    const index = (record.fields.equipment ?? []).indexOf(equipment.id);
    const last = calibrations
      .map((calibration, at) => ({ ...calibration, at }))
      .filter((calibration) => calibration.to < day)
      .reduce<{ to: string; at: number } | undefined>((a, b) => (a && a.to >= b.to ? a : b), undefined);
    const state = last ? `last certificate ended ${last.to}` : 'no earlier certificate';
    const more = others.length > 0 ? `, as in ${others.map((each) => each.record.id).join(', ')}` : '';
    return [
      {
        place: placeOf(record, 'equipment', index),
        message: `${tag} (${equipment.id}) was used on ${day} outside its calibration (${state}) in ${record.id}${more}`,
        hint: 'Add the certificate, or calibrate now and assess the affected records in a deviation.',
        records: [equipment.id, ...affected.map((each) => each.record.id)],
        related: [
          {
            place: last
              ? placeOf(equipment, 'calibrations', last.at, 'to')
              : placeOf(equipment, 'calibrations'),
            message: state,
          },
          ...others.map((each) => ({
            place: placeOf(each.record, 'executed'),
            message: `${each.record.id} used ${tag} on ${each.day}`,
          })),
        ],
        data: { day },
      },
    ];
  },
});

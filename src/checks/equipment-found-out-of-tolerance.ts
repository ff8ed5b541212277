import { testRecords } from '../graph/tested-revisions.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const equipmentFoundOutOfTolerance = defineCheck({
  code: 'equipment-found-out-of-tolerance',
  level: 'error',
  title: 'Equipment was found out of tolerance, and results measured with it have not been assessed',
  basis: 'ISO 13485:2016 7.6 (validity of previous results where equipment does not conform)',
  explain:
    'A certificate says that the equipment was found out of tolerance. Everything measured with it since it was last found in order may be wrong, and nobody knows from which day on. A record of that time has no deviation against it that was closed since. A certificate that does not say how the equipment was found shows nothing. Equipment that has been withdrawn is looked at too: that it is no longer used mends no earlier reading.\n\nThe look-back is asked for by the standard, and is what makes calibration worth more than a sticker: a gauge that read five per cent high has let units pass that should have failed.\n\nAssess each record: how large the error was, in which direction, and whether the result stands with it. Write it down in a deviation `against` the record, with its disposition, and close it. Where the result does not stand, repeat the test.',
  examines: 'calibrations that found equipment out of tolerance',
  subjects: ({ graph }) =>
    graph
      .recordsOf('equipment')
      .flatMap((equipment) =>
        equipment.fields.calibrations.flatMap((calibration, index) =>
          calibration.found === 'out of tolerance' ? [{ equipment, calibration, index }] : [],
        ),
      ),
  judge: ({ equipment, calibration, index }, { graph }) => {
    // The last time that it was known to be in order; without one, everything before is in question.
    const since = equipment.fields.calibrations
      .filter((each) => each.from < calibration.from && each.found === 'in tolerance')
      .map((each) => each.from)
      .sort()
      .at(-1);
    return testRecords(graph).flatMap((record) => {
      const used = record.links.some((link) => link.field === 'equipment' && link.to === equipment.id);
      const { from, to } = record.fields.executed;
      if (!used || from >= calibration.from || (since !== undefined && to < since)) return [];
      const isAssessed = graph
        .sources(record.id, 'against', 'deviation')
        .some(
          ({ fields, status }) =>
            status === 'approved' &&
            fields.disposition !== undefined &&
            fields.closed !== undefined &&
            fields.closed >= calibration.from,
        );
      if (isAssessed) return [];
      return [
        {
          place: placeOf(record, 'executed', 'from'),
          message: `${record.id} was measured with ${equipment.id} ${equipment.fields.tag}, which certificate ${calibration.certificate} found out of tolerance on ${calibration.from}; it was last in order on ${since ?? 'no day on record'}`,
          hint: `Assess ${record.id} in a deviation against it, approved and closed on ${calibration.from} or later; repeat the test where the result does not stand.`,
          records: [record.id, equipment.id],
          related: [
            {
              place: placeOf(equipment, 'calibrations', index, 'found'),
              message: `${equipment.id} found out of tolerance`,
            },
          ],
          data: { certificate: calibration.certificate, found: calibration.from, since: since ?? '' },
        },
      ];
    });
  },
});

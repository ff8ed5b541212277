import type { Place } from '../findings/finding.ts';
import { isRealDate } from '../records/calendar.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

interface Period {
  readonly record: TechnicalRecord;
  readonly what: string;
  readonly from: string;
  readonly to: string;
  readonly place: Place;
  readonly fromPlace: Place;
}

const periodAt = (
  record: TechnicalRecord,
  what: string,
  { from, to }: { readonly from: string; readonly to: string },
  ...path: readonly (string | number)[]
): Period => ({
  record,
  what,
  from,
  to,
  place: placeOf(record, ...path, 'to'),
  fromPlace: placeOf(record, ...path, 'from'),
});

const periods = ({ graph }: CheckContext): readonly Period[] => {
  const executed = [...graph.recordsOf('verification-record'), ...graph.recordsOf('validation-record')];
  return [
    ...executed.map((record) => periodAt(record, 'the work', record.fields.executed, 'executed')),
    ...graph
      .recordsOf('equipment')
      .flatMap((record) =>
        record.fields.calibrations.map((calibration, index) =>
          periodAt(record, `calibration ${calibration.certificate}`, calibration, 'calibrations', index),
        ),
      ),
    ...graph
      .recordsOf('field-data')
      .map((record) => periodAt(record, 'the time of counting', record.fields.period, 'period')),
    ...graph
      .recordsOf('design-plan')
      .flatMap((record) =>
        record.fields.stages.flatMap(({ stage, planned }, index) =>
          planned ? [periodAt(record, `the stage "${stage}"`, planned, 'stages', index, 'planned')] : [],
        ),
      ),
  ].filter(({ record }) => record.status !== 'retired');
};

export const periodReversed = defineCheck({
  code: 'period-reversed',
  level: 'error',
  title: 'A period ends before it begins',
  basis: 'ISO 13485:2016 7.6 and 7.3.6',
  explain:
    'The last day of a test, a study or a calibration lies before its first day. One of the two is wrong, and whatever is compared with them (the approval of the protocol, the calibration of the equipment) may be judged wrongly in either direction.\n\nA measurement with a gauge out of calibration is worth nothing, and only these dates tell.\n\nCorrect the date from the original note or the certificate.',
  examines: 'periods of tests, studies, calibrations, field data and planned stages',
  subjects: periods,
  judge: ({ record, what, from, to, place, fromPlace }) =>
    to >= from || !isRealDate(from) || !isRealDate(to)
      ? []
      : [
          {
            place,
            message: `${record.id}: ${what} ends on ${to}, before it begins on ${from}`,
            hint: 'Correct one of the two dates.',
            records: [record.id],
            related: [{ place: fromPlace, message: `begins on ${from}` }],
            data: { from, to },
          },
        ],
});

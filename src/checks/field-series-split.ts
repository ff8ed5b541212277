import { countedRisks } from '../evidence/counted-risks.ts';
import type { FieldSeries } from '../evidence/field-experience.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/** Whether two series count the same risk in the same way, one after the other in time, and are yet apart. */
const followsApart = (earlier: FieldSeries, later: FieldSeries): boolean => {
  const device = ({ last }: FieldSeries): string => last.record.fields.device.which;
  const first = later.parts[0];
  return (
    earlier !== later &&
    first !== undefined &&
    earlier.risk.id === later.risk.id &&
    earlier.counts === later.counts &&
    earlier.estimate === later.estimate &&
    device(earlier) === device(later) &&
    first.record.fields.starts_anew === undefined &&
    earlier.last.record.fields.period.to < first.record.fields.period.from
  );
};

export const fieldSeriesSplit = defineCheck({
  code: 'field-series-split',
  level: 'warning',
  title: 'Field data of one risk go on under other words, and are not taken together',
  basis:
    'Regulation (EU) 2017/745 Article 83(2) (systematically, over the whole lifetime); common practice, no source',
  explain:
    'A record counts the same kind of event of the same risk as an earlier one, after it in time, but under another heading, or with another description of the comparable device. Records are taken together only where these are the same, so each of the two is judged alone, and what they say together is not seen.\n\nOften it is a slip of a word. Use the words of the earlier record. Where the new data really are something else (another source, another device, a change that met the risk), say so under `starts_anew` of the later record.',
  examines: 'series of counts',
  subjects: (context) => {
    const all = countedRisks(context);
    return all.map((series) => ({ series, all }));
  },
  judge: ({ series, all }): readonly Draft[] => {
    const earlier = all.find((other) => followsApart(other, series));
    const first = series.parts[0];
    if (!earlier || !first) return [];
    const { record, counted } = first;
    const isHeading = counted.column !== earlier.column;
    return [
      {
        place: isHeading
          ? placeOf(record, 'data', 'columns', counted.index, 'column')
          : placeOf(record, 'device'),
        message: `${record.id} goes on counting for ${series.risk.id} what ${earlier.last.record.id} counted until ${earlier.last.record.fields.period.to}, under ${isHeading ? `the heading "${counted.column}" in place of "${earlier.column}"` : 'another description of the device'}, so the two are not taken together`,
        hint: 'Use the same words, or say under "starts_anew" why it is something else.',
        records: [record.id, earlier.last.record.id, series.risk.id],
      },
    ];
  },
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const deviationOpen = defineCheck({
  code: 'deviation-open',
  level: 'error',
  title: 'A deviation is open',
  basis: 'common practice, no source',
  explain:
    'Something did not go as the protocol says, and the assessment is not finished on the day for which the file is checked. Until it is, nobody can say whether the records that the deviation is against still show what they claim. A report that rests on an open deviation is one of the first questions in a deficiency letter.\n\nFinish the assessment: impact, disposition, and the day under `closed`.',
  examines: 'deviations',
  subjects: ({ graph }) => graph.recordsOf('deviation').filter((deviation) => deviation.status !== 'retired'),
  judge: (deviation, { graph, asOf }) => {
    const { closed, against } = deviation.fields;
    if (closed !== undefined && closed <= asOf) return [];
    const records = against.filter((id) => graph.record(id));
    const touched = records.length > 0 ? `, against ${records.join(', ')}` : '';
    return [
      {
        place: placeOf(deviation, closed === undefined ? 'id' : 'closed'),
        message:
          closed === undefined
            ? `${deviation.id} "${deviation.title}" is not closed${touched}`
            : `${deviation.id} "${deviation.title}" is closed only on ${closed}, after ${asOf}${touched}`,
        hint: 'Finish the assessment and give the day under "closed".',
        records: [deviation.id, ...records],
        related: graph
          .linksFrom(deviation.id, 'against')
          .flatMap((link) => graph.record(link.to) ?? [])
          .map((record) => ({ place: placeOf(record, 'id'), message: `${record.id} awaits the assessment` })),
      },
    ];
  },
});

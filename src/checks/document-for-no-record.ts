import { nearestName } from '../records/nearest-name.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const documentForNoRecord = defineCheck({
  code: 'document-for-no-record',
  level: 'warning',
  title: 'A document that is written for each record of a type has none to be written for',
  basis: 'common practice, no source: a deliverable that is not written is missed when it is asked for',
  explain:
    'The document has `for_each`, and no record of that type has a status that it asks for, or there is no such type. Nothing is written, and nobody sees an empty page that would tell.\n\nCorrect the type or the statuses. A document in `draft` may wait for its first record.',
  examines: 'documents with for_each',
  subjects: ({ graph }) =>
    graph
      .recordsOf('document')
      .filter((document) => document.status !== 'retired' && document.fields.for_each !== undefined),
  judge: (document, { graph }) => {
    const { type = '', status } = document.fields.for_each ?? {};
    const names = [...graph.types.keys()];
    if (!names.includes(type)) {
      const near = nearestName(type, names);
      return [
        {
          place: placeOf(document, 'for_each', 'type'),
          message: `${document.id} is to be written for each ${type}, which is no record type`,
          hint: near ? `Did you mean "${near}"?` : `Use one of: ${names.join(', ')}.`,
          records: [document.id],
        },
      ];
    }
    const found = [...graph.records.values()].some(
      (record) =>
        record.type === type &&
        (status ? (status as readonly string[]).includes(record.status) : record.status !== 'retired'),
    );
    // A draft may well wait for its first record.
    return found || document.status === 'draft'
      ? []
      : [
          {
            place: placeOf(document, 'for_each'),
            message: `${document.id} is to be written for each ${type}${status ? ` that is ${status.join(' or ')}` : ''}, and there is none`,
            hint: 'Correct the type or the statuses, or wait with the document.',
            records: [document.id],
          },
        ];
  },
});

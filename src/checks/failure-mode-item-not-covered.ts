import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const failureModeItemNotCovered = defineCheck({
  code: 'failure-mode-item-not-covered',
  level: 'warning',
  title: 'No failure mode table analyses a part',
  basis: 'common practice, no source',
  explain:
    'There is a table of failure modes, and this part is in none of them. A table that leaves out parts without saying so looks complete and is not.\n\nAdd the failure modes of the part, or say under `scope` of the table what it leaves out and accept the finding.',
  examines: 'parts, in files with a failure mode table',
  subjects: ({ graph }) =>
    graph.recordsOf('failure-modes').some((record) => record.status !== 'retired')
      ? graph
          .recordsOf('design-output')
          .filter((output) => output.status !== 'retired' && output.fields.kind === 'part')
      : [],
  judge: (output, { graph }) => {
    const tables = graph.recordsOf('failure-modes').filter((record) => record.status !== 'retired');
    return tables.some((table) => table.fields.modes.some((mode) => mode.output === output.id))
      ? []
      : [
          {
            place: placeOf(output, 'id'),
            message: `${output.id} "${output.title}" has no failure mode in ${tables.map((table) => table.id).join(', ')}`,
            hint: 'Add its failure modes, or say under "scope" why it is left out and accept the finding.',
            records: [output.id, ...tables.map((table) => table.id)],
          },
        ];
  },
});

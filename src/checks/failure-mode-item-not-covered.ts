import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const failureModeItemNotCovered = defineCheck({
  code: 'failure-mode-item-not-covered',
  level: 'warning',
  title: 'A part is in no failure mode table, though there is one',
  basis: 'common practice, no source',
  explain:
    'The file has a table of failure modes, and a design output of the kind "part" is in none. Where a table is kept, a reader takes it for complete.\n\nAdd at least one failure mode of the part, or write an entry that says under `no_harm` why its failure cannot cause harm. A file without any table gives no finding: failure modes are one way into the analysis, not the only one.',
  examines: 'parts, where there is a failure mode table',
  subjects: ({ graph }) => {
    const tables = graph.recordsOf('failure-modes').filter((record) => record.status !== 'retired');
    return tables.length === 0
      ? []
      : graph
          .recordsOf('design-output')
          .filter((record) => record.status !== 'retired' && record.fields.kind === 'part')
          .map((output) => ({ output, tables }));
  },
  judge: ({ output, tables }) =>
    tables.some((table) => table.fields.modes.some((mode) => mode.output === output.id))
      ? []
      : [
          {
            place: placeOf(output),
            message: `${output.id} "${output.title}" is a part and has no failure mode in ${tables.map(({ id }) => id).join(', ')}`,
            hint: `Add a failure mode with "output: ${output.id}" to ${tables[0]?.id}.`,
            records: [output.id, ...tables.map(({ id }) => id)],
          },
        ],
});

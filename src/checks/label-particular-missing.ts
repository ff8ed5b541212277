import { legalRows, placeOfRow } from '../graph/legal-rows.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { meantClause } from '../regulation/meant-clause.ts';
import { defineCheck } from './check.ts';

const table = 'eu-mdr-annex-1';

/** Outputs that carry the particulars of a clause: 23.2 on the label, 23.3 on the sterile packaging, 23.4 in the instructions. */
const carriersOf = (clause: string, graph: TraceGraph): readonly RecordOf<'design-output'>[] => {
  const outputs = graph.recordsOf('design-output').filter((output) => output.status !== 'retired');
  if (clause.startsWith('23.4'))
    return outputs.filter((output) => output.fields.kind === 'instructions for use');
  const labels = outputs.filter((output) => output.fields.kind === 'label');
  // A pouch or carton is a carrier once it lists particulars; most of them are only wrapping.
  return [
    ...labels,
    ...outputs.filter((output) => output.fields.kind === 'packaging' && output.fields.particulars),
  ];
};

export const labelParticularMissing = defineCheck({
  code: 'label-particular-missing',
  level: 'error',
  title: 'A particular that the law asks for is not on the label or in the instructions',
  basis: 'Regulation (EU) 2017/745 Annex I 23.2, 23.3 and 23.4',
  explain:
    'The clause is marked as applicable, and it asks for a piece of information on the label (23.2), on the sterile packaging (23.3) or in the instructions for use (23.4). No design output of that kind lists the clause under `particulars`.\n\nThe list has more than fifty entries and some are easily forgotten, such as the month and year of manufacture on sterile packaging even where a use-by date is given (23.3(h)). A user who lacks one of them may use a device that is no longer sterile, and a label that lacks one holds up the review.\n\nPut the particular on the artwork or into the text and list it with its clause. Where it does not apply to the device, mark the legal requirement as not applicable and give the reason.',
  examines: 'applicable clauses on labels and instructions',
  subjects: ({ graph, clauseTables }) =>
    legalRows(graph).filter(
      (row) =>
        row.applicable === true &&
        row.table === table &&
        /^23\.[234]\(/.test(row.clause) &&
        clauseTables.inUse(table)?.byClause.has(row.clause) === true,
    ),
  judge: (row, { graph, clauseTables }) => {
    const { clause, record: requirement } = row;
    const carriers = carriersOf(clause, graph);
    const main = carriers[0];
    if (
      !main ||
      // A clause that is nearly this one has a finding of its own.
      carriers.some((output) =>
        output.fields.particulars?.some((entry) => meantClause(entry.clause, [clause]) !== undefined),
      )
    )
      return [];
    const title = clauseTables.inUse(table)?.byClause.get(clause)?.title ?? '';
    return [
      {
        place: placeOf(main, 'particulars'),
        message: `${carriers.map((output) => output.id).join(', ')} ${carriers.length > 1 ? 'lack' : 'lacks'} the particular ${clause} "${title}", which ${requirement.id} marks as applicable`,
        hint: `Put it on the ${main.fields.kind === 'instructions for use' ? 'page' : 'artwork'} and list the clause under "particulars" of ${main.id}, or give the reason why it does not apply in ${requirement.id}.`,
        records: [main.id, requirement.id],
        related: [{ place: placeOfRow(row, 'applicable'), message: `${requirement.id} applies` }],
        data: { clause },
      },
    ];
  },
});

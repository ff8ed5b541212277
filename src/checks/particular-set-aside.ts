import { legalRows, placeOfRow } from '../graph/legal-rows.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

const table = 'eu-mdr-annex-1';

export const particularSetAside = defineCheck({
  code: 'particular-set-aside',
  level: 'warning',
  title: 'A label or leaflet carries a particular that is marked as not applicable',
  basis: 'Regulation (EU) 2017/745 Annex I 23.2, 23.3 and 23.4, Annex II 4(a)',
  explain:
    "A design output lists a clause under `particulars`, and the legal requirement marks that clause as not applicable. Either the label says something of the device that does not hold, such as that it is for a single use, or the requirement was set aside by mistake.\n\nA clause that was set aside is inspected by nobody, whatever stands on the artwork.\n\nMark the clause as applicable, with its solution and evidence, or take the particular off the label. A particular that is told of one's own accord is listed under the clause that asks for it.",
  examines: 'particulars of clauses that a legal requirement answers',
  subjects: ({ graph }) => {
    const rows = legalRows(graph).filter((row) => row.table === table);
    return graph
      .recordsOf('design-output')
      .filter(({ status }) => status !== 'retired')
      .flatMap((output) =>
        (output.fields.particulars ?? []).flatMap(({ clause }, index) => {
          const answers = rows.filter((row) => row.clause === clause);
          return answers.length === 0 ? [] : [{ output, clause, index, answers }];
        }),
      );
  },
  judge: ({ output, clause, index, answers }): readonly Draft[] =>
    answers.some(({ applicable }) => applicable !== false)
      ? []
      : [
          {
            place: placeOf(output, 'particulars', index, 'clause'),
            message: `${output.id} carries the particular ${clause}, which ${answers.map(({ record }) => record.id).join(', ')} marks as not applicable`,
            hint: 'Mark the clause as applicable, or take the particular out.',
            records: [output.id, ...answers.map(({ record }) => record.id)],
            related: answers.map((row) => ({
              place: placeOfRow(row, 'applicable'),
              message: `${clause} is set aside here`,
            })),
            data: { clause },
          },
        ],
});

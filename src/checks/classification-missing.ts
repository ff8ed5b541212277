import { legalRows, placeOfRow } from '../graph/legal-rows.ts';
import { defineCheck } from './check.ts';

const table = 'eu-mdr-annex-1';

export const classificationMissing = defineCheck({
  code: 'classification-missing',
  level: 'warning',
  title: 'The file answers the requirements of the Regulation and has no classification',
  basis: 'Regulation (EU) 2017/745 Annex II 1.1(f)',
  explain:
    'There are approved answers to Annex I and no record of the class of the device. The technical documentation must hold the risk class and the justification of the rules applied.\n\nThe class decides which conformity assessment follows, what the notified body looks at and how often reports are due. Built on the wrong one, the whole file may be the wrong file.\n\nAdd a record with `plinth new classification`: every rule that could apply, the answer, the rule relied on. It is for qualified people to decide.',
  awaits: ['classification'],
  awaitsAnywhere: true,
  examines: 'approved answers to Annex I',
  subjects: ({ graph }) => {
    const rows = legalRows(graph).filter((row) => row.table === table && row.record.status === 'approved');
    // The file as a whole lacks it, so it is asked for once.
    return rows.slice(0, 1);
  },
  judge: (row, { graph }) =>
    graph.recordsOf('classification').some((record) => record.status !== 'retired')
      ? []
      : [
          {
            place: placeOfRow(row, 'clause'),
            message: `the file answers ${table} and holds no classification of the device`,
            hint: 'Add one with "plinth new classification".',
            records: [row.record.id],
          },
        ],
});

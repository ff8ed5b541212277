import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const disclosedRiskMissing = defineCheck({
  code: 'disclosed-risk-missing',
  level: 'error',
  title: 'A residual risk to be told to users is not in the instructions for use',
  basis: 'Regulation (EU) 2017/745 Annex I 23.1(g) and 23.4(g); ISO 14971:2019 8 (from memory)',
  explain:
    'The risk is marked `disclosed: true`: people decided that users must be told of what remains of it. No instructions for use list it under `discloses`.\n\nA surgeon can only weigh or avoid a risk that the instructions mention. Reviewers compare the risk file with the instructions line by line.\n\nAdd the statement to the instructions and list it under `discloses` of that design output, or decide again, with a reason, that the risk need not be disclosed.',
  awaits: ['design-output'],
  examines: 'risks to be disclosed',
  subjects: ({ graph }) =>
    graph.recordsOf('risk').filter((risk) => risk.status !== 'retired' && risk.fields.disclosed === true),
  judge: (risk, { graph }) => {
    const instructions = graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired' && output.fields.kind === 'instructions for use');
    if (instructions.some((output) => output.fields.discloses?.some((entry) => entry.risk === risk.id)))
      return [];
    const names = instructions.map((output) => output.id);
    return [
      {
        place: placeOf(risk, 'disclosed'),
        message: `${risk.id} "${risk.title}" is to be disclosed, but ${names.length > 0 ? `${names.join(', ')} does not list it` : 'there are no instructions for use'}`,
        hint: `Add the statement to the instructions for use and list ${risk.id} under "discloses".`,
        records: [risk.id, ...names],
        related: instructions.map((output) => ({
          place: placeOf(output, 'discloses'),
          message: `what ${output.id} discloses`,
        })),
      },
    ];
  },
});

import { userMaterial } from '../evidence/claims.ts';
import { nearCopiesIn } from '../records/near-copies.ts';
import { holdsWording } from '../records/plain-words.ts';
import { proseOnly } from '../records/prose.ts';
import { placeOf } from '../records/record.ts';
import { otherPurposesOf } from '../records/stated-purposes.ts';
import { type Draft, defineCheck } from './check.ts';

export const userMaterialIncomplete = defineCheck({
  code: 'user-material-incomplete',
  level: 'warning',
  title: 'Material for users leaves out the intended purpose or the risks that remain',
  basis:
    'Regulation (EU) 2017/745 Article 7(c) (likely risks are told) and 7(d) (no uses beyond the intended purpose); naming the instructions instead is common practice, no source',
  explain:
    'A brochure or training material, a document with a `kind`, does not state the intended purpose of plinth.yaml; or it neither tells of the residual risks that the instructions for use disclose nor names these instructions.\n\nThe law forbids to suggest other uses and to keep silent about likely risks. National laws on advertising can ask for more.\n\nTake in `:phrase[intended_purpose]`, and state the risks that remain, or send the reader to the instructions for use by their number.',
  examines: 'documents that are material for users',
  subjects: ({ graph }) => userMaterial(graph),
  judge: (document, { graph, project }): readonly Draft[] => {
    const body = proseOnly(document.body);
    const purpose = project.fields.phrases?.['intended_purpose'];
    const instructions = graph
      .recordsOf('design-output')
      .filter(({ status, fields }) => status !== 'retired' && fields.kind === 'instructions for use');
    const disclosed = instructions.flatMap(({ fields }) => fields.discloses ?? []);
    const numbers = instructions.flatMap(({ id, fields }) =>
      [id, fields.drawing, graph.recordOf('document', fields.wording ?? '')?.fields.number].filter(
        (each) => each !== undefined,
      ),
    );
    const told = disclosed.every(({ statement }) => holdsWording(body, statement));
    const sent = numbers.some((number) => holdsWording(body, number));
    return [
      ...(purpose === undefined ||
      /:phrase\[\s{0,5}intended_purpose\s{0,5}\]/.test(body) ||
      holdsWording(body, purpose) ||
      // A text that gives another purpose has a finding where it does.
      nearCopiesIn(purpose)(body).length > 0 ||
      otherPurposesOf(document, purpose).length > 0
        ? []
        : [
            {
              place: placeOf(document, 'kind'),
              message: `${document.id} is ${document.fields.kind} and does not state the intended purpose`,
              hint: 'Take it in with ":phrase[intended_purpose]".',
              records: [document.id],
              related: [
                {
                  place: project.yaml.place(['phrases', 'intended_purpose']),
                  message: 'the wording "intended_purpose"',
                },
              ],
            },
          ]),
      ...(disclosed.length === 0 || told || sent
        ? []
        : [
            {
              place: placeOf(document, 'kind'),
              message: `${document.id} is ${document.fields.kind} and neither tells of the ${disclosed.length} risks that remain nor names the instructions for use (${numbers.join(', ')})`,
              hint: 'State the risks word for word, or send the reader to the instructions by their number.',
              records: [document.id, ...instructions.map(({ id }) => id)],
              related: instructions.map((output) => ({
                place: placeOf(output, 'discloses'),
                message: `what ${output.id} discloses`,
              })),
            },
          ]),
    ];
  },
});

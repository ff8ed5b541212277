import type { TraceGraph } from '../graph/trace-graph.ts';
import { holdsWording } from '../records/plain-words.ts';
import type { Project } from '../records/project.ts';
import { proseOnly } from '../records/prose.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

type Output = RecordOf<'design-output'>;

/** The classification by which a notified body takes part. */
const assessed = (graph: TraceGraph): RecordOf<'classification'> | undefined =>
  graph
    .recordsOf('classification')
    .find(({ status, fields }) => status !== 'retired' && fields.route.notified_body !== 'none');

const carries = ({ status, fields }: Output): boolean =>
  status !== 'retired' &&
  (fields.kind === 'label' || fields.kind === 'instructions for use') &&
  (fields.ce_marking !== undefined || (fields.particulars ?? []).length > 0);

const judgeNumber = (output: Output, graph: TraceGraph, project: Project): readonly Draft[] => {
  const number = output.fields.ce_marking?.number;
  if (number === undefined) return [];
  const known = project.fields.declaration?.notified_body?.number;
  const document = graph.recordOf('document', output.fields.wording ?? '');
  if (known !== undefined && known !== number)
    return [
      {
        place: placeOf(output, 'ce_marking', 'number'),
        message: `${output.id} has the number ${number} beside the CE marking, and plinth.yaml has ${known} for the notified body`,
        hint: 'Correct whichever is wrong, here and on the artwork.',
        records: [output.id],
        related: [
          {
            place: project.yaml.place(['declaration', 'notified_body', 'number']),
            message: 'the number of the notified body',
          },
        ],
      },
    ];
  return document && document.status !== 'retired' && !holdsWording(proseOnly(document.body), number)
    ? [
        {
          place: placeOf(output, 'ce_marking', 'number'),
          message: `${document.id} "${document.title}" holds the words of ${output.id} and does not have the number ${number} beside the CE marking`,
          hint: `Put "CE ${number}" into ${document.id}.`,
          records: [output.id, document.id],
          related: [{ place: placeOf(document, 'id'), message: `the words of ${output.id}` }],
        },
      ]
    : [];
};

export const ceMarkingIncomplete = defineCheck({
  code: 'ce-marking-incomplete',
  level: 'warning',
  title: 'Label or instructions do not say how they carry the CE marking',
  basis:
    'Regulation (EU) 2017/745 Article 20 (where the marking stands, and the number of the notified body beside it: from memory)',
  explain:
    'By the classification a notified body takes part, and a label or instructions for use that list particulars have no `ce_marking`; or it has neither the number of the notified body nor a reason; or the number is not that of `declaration.notified_body` in plinth.yaml, or does not stand in the document that holds the words.\n\nThe marking is in none of the lists of Annex I, so that a label that was drawn up along these lists can lack it. As far as we remember, Article 20 asks for it on the device or its sterile packaging, in any instructions for use and on the sales packaging, followed by the number of the notified body. Read the Article itself.\n\nAdd `ce_marking: { number: "..." }` as on the artwork. Where the marking or the number is not there, give the reason. Nothing may carry the marking before the assessment is complete; whether it may is for those who sign the declaration.',
  examines: 'labels and instructions, where a notified body takes part',
  subjects: ({ graph }) => {
    const classification = assessed(graph);
    return classification
      ? graph
          .recordsOf('design-output')
          .filter(carries)
          .map((output) => ({ output, classification }))
      : [];
  },
  judge: ({ output, classification }, { graph, project }): readonly Draft[] => {
    const marking = output.fields.ce_marking;
    if (marking?.reason !== undefined && marking.number === undefined) return [];
    if (marking?.number !== undefined) return judgeNumber(output, graph, project);
    return [
      {
        place: marking === undefined ? placeOf(output, 'kind') : placeOf(output, 'ce_marking'),
        message:
          marking === undefined
            ? `${output.id} does not tell of the CE marking, and ${classification.id} has class ${classification.fields.class}, in which a notified body takes part`
            : `${output.id} has the CE marking without the number of the notified body, which takes part in class ${classification.fields.class} (${classification.id})`,
        hint: 'Add "ce_marking" with the number that stands on the artwork, or with the reason why it is not there.',
        records: [output.id, classification.id],
        related: [
          {
            place: placeOf(classification, 'route', 'notified_body'),
            message: `the part of a notified body in ${classification.id}`,
          },
        ],
      },
    ];
  },
});

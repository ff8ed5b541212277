import {
  type Claim,
  claims,
  labelling,
  nearStatementsIn,
  userMaterial,
  userTextsOf,
} from '../evidence/claims.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { wordDifference } from '../records/near-copies.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/** Labels, instructions, other material for users, and whatever a claim says it is stated in. */
const statingRecords = (graph: TraceGraph): readonly TechnicalRecord[] => {
  const named = claims(graph).flatMap((claim) => claim.fields.stated_in ?? []);
  const records = [
    ...labelling(graph),
    ...userMaterial(graph),
    ...named.map((id) => graph.record(id)).filter((record) => record !== undefined),
  ];
  return [...new Set(records)].filter(({ sound, status }) => sound && status !== 'retired');
};

export const claimWordingDiffers = defineCheck({
  code: 'claim-wording-differs',
  level: 'error',
  title: 'A text repeats a claim with a difference',
  basis: 'Regulation (EU) 2017/745 Article 7; word for word is common practice, no source',
  explain:
    'A label, instructions for use or a brochure has a passage that starts or ends like a claim and shares most of its words without being the claim. Line breaks, marks of Markdown and the full stop at the end make no difference. Statements of fewer than six words are too common to be looked for.\n\nThe evidence bears the statement as it was approved. One word more ("every patient", "always") makes it another statement, that nobody has shown.\n\nTake the wording from the claim with `:claim[CM-01]`, repeat it word for word, or change the claim and have it approved anew.',
  examines: 'labels, instructions and material for users, each with each claim',
  subjects: ({ graph }) => {
    const records = statingRecords(graph);
    return claims(graph).flatMap((claim) => {
      const copiesIn = nearStatementsIn(claim);
      return records.map((record) => ({ claim, record, copiesIn }));
    });
  },
  judge: ({ claim, record, copiesIn }, { graph }): readonly Draft[] =>
    userTextsOf(record, graph).flatMap(({ record: holder, text }) =>
      // The words of an output stand in a document of its own, which is judged by itself where it is named.
      holder !== record && isNamed(holder, graph)
        ? []
        : copiesIn(text.text).map((copy) => ({
            place: text.placeAt(copy.offset, copy.length),
            message: `${holder.id} states ${claim.id} with ${wordDifference(copy.text, claim.fields.wording)}`,
            hint: 'Use the wording of the claim word for word, or change the claim with its evidence.',
            records: [holder.id, claim.id],
            related: [{ place: placeOf(claim, 'wording'), message: `the wording of ${claim.id}` }],
            data: { actual: copy.text },
          })),
    ),
});

const isNamed = (record: TechnicalRecord, graph: TraceGraph): boolean =>
  claims(graph).some((claim: Claim) => claim.fields.stated_in?.includes(record.id)) ||
  userMaterial(graph).some(({ id }) => id === record.id);

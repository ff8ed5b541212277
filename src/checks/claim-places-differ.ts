import {
  type Claim,
  claimMarksIn,
  claims,
  labelling,
  nearStatementsIn,
  states,
  userMaterial,
  userTextsOf,
} from '../evidence/claims.ts';
import { placeInBody, placeOf, type TechnicalRecord } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const claimPlacesDiffer = defineCheck({
  code: 'claim-places-differ',
  level: 'error',
  title: 'A claim does not stand where it is said to stand, or stands elsewhere too',
  basis: 'common practice, no source',
  explain:
    'A claim names under `stated_in` a label, instructions for use or a document that does not make the statement, neither word for word nor with `:claim[CM-01]`. Or a label, instructions or a brochure make the statement and the claim does not name them.\n\nWhen the evidence changes, the list is what tells which print has to be withdrawn. A place that is missing stays in use.\n\nCorrect the list, or the text.',
  examines: 'claims with each place that they name or stand in',
  subjects: ({ graph }) =>
    claims(graph).flatMap((claim) => {
      const named = (claim.fields.stated_in ?? []).map((id, index) => ({
        kind: 'named' as const,
        claim,
        index,
        record: graph.record(id),
      }));
      const others = [...labelling(graph), ...userMaterial(graph)]
        .filter(({ id }) => !isCovered(claim, id, graph) && !namesUnknownPlace(claim, graph))
        .map((record) => ({ kind: 'other' as const, claim, index: -1, record: record as TechnicalRecord }));
      return [...named, ...others];
    }),
  judge: ({ kind, claim, index, record }, { graph }): readonly Draft[] => {
    // An unknown id is told of by another check.
    if (!record?.sound) return [];
    const found = states(record, claim, graph);
    if (kind === 'named') {
      // A copy with a difference has a finding of its own.
      const copiesIn = nearStatementsIn(claim);
      const nearly = userTextsOf(record, graph).some(({ text }) => copiesIn(text.text).length > 0);
      // So has a mark that is spelt nearly like the claim.
      const misspelt = claimMarksIn(record.body).some(
        ({ id }) => id !== claim.id && id.trim().toLowerCase() === claim.id.toLowerCase(),
      );
      return found || nearly || misspelt
        ? []
        : [
            {
              place: placeOf(claim, 'stated_in', index),
              message: `${claim.id} is said to be stated in ${record.id}, and ${record.id} does not say "${claim.fields.wording}"`,
              hint: `State it there word for word or with ":claim[${claim.id}]", or take ${record.id} off the list.`,
              records: [claim.id, record.id],
              related: [{ place: placeOf(record), message: `${record.id} ${record.title}` }],
            },
          ];
    }
    const mark = claimMarksIn(record.body).find(({ id }) => id === claim.id);
    return found
      ? [
          {
            place: mark ? placeInBody(record, mark.offset, mark.length) : placeOf(record),
            message: `${record.id} states ${claim.id} "${claim.fields.wording}", and the claim does not name it`,
            hint: `Add ${record.id} under "stated_in" of ${claim.id}.`,
            records: [record.id, claim.id],
            related: [{ place: placeOf(claim, 'stated_in'), message: `places of ${claim.id}` }],
          },
        ]
      : [];
  },
});

/** Whether a place of the claim does not exist: which one was meant is not known. */
const namesUnknownPlace = (claim: Claim, graph: Parameters<typeof claims>[0]): boolean =>
  (claim.fields.stated_in ?? []).some((id) => graph.record(id) === undefined);

/** Whether a claim names a record, or the output whose words the record holds. */
const isCovered = (claim: Claim, id: string, graph: Parameters<typeof claims>[0]): boolean =>
  (claim.fields.stated_in ?? []).some(
    (named) =>
      named === id ||
      graph.recordOf('design-output', named)?.fields.wording === id ||
      graph.recordOf('design-output', id)?.fields.wording === named,
  );

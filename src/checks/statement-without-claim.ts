import { claims, nearStatementsIn, userMaterial } from '../evidence/claims.ts';
import { otherNumbersIn } from '../records/altered-phrases.ts';
import { measuredNumbersIn } from '../records/measured-numbers.ts';
import { nearCopiesIn } from '../records/near-copies.ts';
import { withoutWordings } from '../records/plain-words.ts';
import { proseOnly } from '../records/prose.ts';
import { placeInBody } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const statementWithoutClaim = defineCheck({
  code: 'statement-without-claim',
  level: 'warning',
  title: 'Material for users gives a number that is no claim',
  basis: 'Regulation (EU) 2017/745 Article 7; asking it of every number is common practice, no source',
  explain:
    'A brochure or training material, a document with a `kind`, gives a number with a unit or a share such as "9 of 10" that belongs to no claim, to no wording of plinth.yaml and to no statement of residual risks.\n\nNumbers are what readers remember and what authorities ask to be proven. One that was typed into the text is held against nothing, and nobody hears of it when the evidence changes.\n\nMake the statement a record of type claim and take it in with `:claim[CM-01]`, or use `:phrase[...]` for a wording of plinth.yaml.',
  examines: 'documents that are material for users',
  subjects: ({ graph, project }) => {
    const known = [
      ...claims(graph).map(({ fields }) => fields.wording),
      ...Object.values(project.fields.phrases ?? {}),
      ...graph
        .recordsOf('design-output')
        .filter(({ status }) => status !== 'retired')
        .flatMap(({ fields }) => (fields.discloses ?? []).map(({ statement }) => statement)),
    ];
    const nearly = [
      ...claims(graph).map(nearStatementsIn),
      ...Object.values(project.fields.phrases ?? {}).flatMap((words) => [
        nearCopiesIn(words),
        otherNumbersIn(words),
      ]),
    ];
    return userMaterial(graph).map((document) => ({ document, known, nearly }));
  },
  judge: ({ document, known, nearly }): readonly Draft[] => {
    // A statement that is nearly a claim, or a wording of plinth.yaml, has a finding of its own.
    const copies = nearly.flatMap((copiesIn) => copiesIn(document.body));
    const isInCopy = (offset: number): boolean =>
      copies.some((copy) => offset >= copy.offset && offset < copy.offset + copy.length);
    const seen = new Set<number>();
    return measuredNumbersIn(withoutWordings(proseOnly(document.body), known))
      .filter(({ offset }) => !isInCopy(offset) && !seen.has(offset) && seen.add(offset) !== undefined)
      .map(({ text, offset }) => ({
        place: placeInBody(document, offset, text.length),
        message: `${document.id} states "${text}", which belongs to no claim`,
        hint: 'Make the statement a claim with its evidence and take it in with ":claim[...]", or take it out.',
        records: [document.id],
        data: { text },
      }));
  },
});

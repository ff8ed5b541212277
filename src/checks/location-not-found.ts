import type { Place } from '../findings/finding.ts';
import { legalRows } from '../graph/legal-rows.ts';
import { nearestName } from '../records/nearest-name.ts';
import { sectionsOf } from '../records/prose.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { missingSection } from '../records/section-location.ts';
import { contentOf } from '../submission/submission-rows.ts';
import { type CheckContext, defineCheck } from './check.ts';

interface Located {
  readonly by: string;
  readonly clause: string;
  readonly document: RecordOf<'document'>;
  readonly location: string;
  readonly place: Place;
}

/** The document itself, or the one that holds the words of a label or of instructions. */
const documentBehind = (id: string, { graph }: CheckContext): RecordOf<'document'> | undefined => {
  const wording = graph.recordOf('design-output', id)?.fields.wording;
  return graph.recordOf('document', wording ?? id);
};

const locatedEvidence = (context: CheckContext): readonly Located[] =>
  legalRows(context.graph)
    .filter(({ record }) => record.status !== 'draft')
    .flatMap(({ record, clause, path, evidence }) =>
      evidence.flatMap(({ record: id, location }, index) => {
        const document = location === undefined ? undefined : documentBehind(id, context);
        return document && location !== undefined
          ? [
              {
                by: record.id,
                clause,
                document,
                location,
                place: placeOf(record, ...path, 'evidence', index, 'location'),
              },
            ]
          : [];
      }),
    );

const locatedContent = (context: CheckContext): readonly Located[] =>
  context.graph
    .recordsOf('submission')
    .filter(({ status }) => status !== 'retired' && status !== 'draft')
    .flatMap((submission) =>
      contentOf(submission).flatMap(({ content, clause, path }) => {
        const id = content.document ?? content.record;
        const document =
          id === undefined || content.where === undefined ? undefined : documentBehind(id, context);
        return document && content.where !== undefined
          ? [
              {
                by: submission.id,
                clause,
                document,
                location: content.where,
                place: placeOf(submission, ...path, 'where'),
              },
            ]
          : [];
      }),
    );

export const locationNotFound = defineCheck({
  code: 'location-not-found',
  level: 'warning',
  title: 'A place in a document is named that the document does not have',
  basis: 'Regulation (EU) 2017/745 Annex II 4(d)',
  explain:
    'Evidence of a clause, or a row of a submission, names a section of a document of the file by its number or its heading, and the document has no such section. For labels and instructions the document that holds their words is looked into. Only places that begin with "section" are compared; sections that are drawn from records are not.\n\nAnnex II asks for the precise identity and location of the evidence. A reviewer who looks for section 9 and finds eight sections doubts the other places as well.\n\nCorrect the place, or write the section that is missing. Whether the section says what it is named for is for people to read.',
  examines: 'places in documents that evidence and submissions name',
  subjects: (context) => [...locatedEvidence(context), ...locatedContent(context)],
  judge: ({ by, clause, document, location, place }, { graph }) => {
    const isOfRecord = (words: string): boolean =>
      [...graph.records.values()].some(
        ({ id, title }) => words.startsWith(id.toLowerCase()) || words.startsWith(title.toLowerCase()),
      );
    const missing = missingSection(document.body, location, isOfRecord);
    if (missing === undefined) return [];
    const headings = sectionsOf(document.body).flatMap(({ heading, level }) => (level > 0 ? [heading] : []));
    const near = nearestName(missing, headings);
    return [
      {
        place,
        message: `${by}: clause ${clause} names section ${missing} of ${document.id}, which has no such section`,
        hint: near
          ? `Did you mean "section ${near}"?`
          : 'Name a section by its number or its heading, or write the section.',
        records: [by],
        related: [{ place: placeOf(document, 'title'), message: 'the document' }],
        data: { location, document: document.id },
      },
    ];
  },
});

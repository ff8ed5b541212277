import { dayOfRecord } from '../records/record-day.ts';
import { recordTexts } from '../records/record-texts.ts';
import { outdatedCitations, outdatedSince } from '../regulation/outdated-citations.ts';
import { type Draft, defineCheck } from './check.ts';

export const outdatedCitation = defineCheck({
  code: 'outdated-citation',
  level: 'warning',
  title: 'A section of law is cited that no longer exists',
  basis: '21 CFR 820 as amended, in force since 2 February 2026 (89 FR 7496)',
  explain:
    'Since 2 February 2026 part 820 refers to ISO 13485:2016 and keeps only the sections 820.1, 820.3, 820.7, 820.10, 820.35 and 820.45. The record cites another one, such as 820.30 on design controls. Records whose own date lies before that day are not judged: nobody asks that old records be rewritten.\n\nAn inspector reads a dead citation as a sign that procedures were not carried over, and looks at what else was not.\n\nCite the clause of ISO 13485:2016 that asks for the same. The hint names it where one clause does.',
  examines: 'records',
  subjects: ({ graph, asOf }) =>
    [...graph.records.values()].filter(
      (record) =>
        record.sound && record.status !== 'retired' && (dayOfRecord(record) ?? asOf) >= outdatedSince,
    ),
  judge: (record) => {
    const found = recordTexts(record).flatMap((text) =>
      outdatedCitations(text.text).map((citation) => ({
        ...citation,
        place: text.placeAt(citation.offset, citation.length),
      })),
    );
    return [...new Set(found.map((citation) => citation.section))].flatMap((section): readonly Draft[] => {
      const [first, ...others] = found.filter((citation) => citation.section === section);
      if (!first) return [];
      return [
        {
          place: first.place,
          message: `${record.id} cites 21 CFR ${section}, which does not exist since ${outdatedSince}`,
          hint: first.successor
            ? `Cite ${first.successor} instead.`
            : 'Cite the clause of ISO 13485:2016 that asks for the same.',
          records: [record.id],
          related: others.map((citation) => ({ place: citation.place, message: 'also here' })),
          data: { section },
        },
      ];
    });
  },
});

import { oncePerText } from '../records/once-per-text.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { dayOfRecord } from '../records/record-day.ts';
import { recordTexts } from '../records/record-texts.ts';
import { actsOutdatedSince, outdatedActs } from '../regulation/outdated-acts.ts';
import { outdatedCitations, outdatedSince } from '../regulation/outdated-citations.ts';
import { type Draft, defineCheck } from './check.ts';

const sectionsCited = (record: TechnicalRecord): readonly Draft[] => {
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
};

/** All mentions, whatever the day; those that were dead on the day of a record are chosen from them. */
const actsIn = oncePerText((text) => outdatedActs(text, '9999-12-31'));

const actsCited = (record: TechnicalRecord, day: string): readonly Draft[] => {
  const found = recordTexts(record).flatMap((text) =>
    actsIn(text.text)
      .filter(({ since }) => day >= since)
      .map((mention) => ({
        ...mention,
        place: text.placeAt(mention.offset, mention.length),
      })),
  );
  return [...new Set(found.map(({ name }) => name))].flatMap((name): readonly Draft[] => {
    const [first, ...others] = found.filter((mention) => mention.name === name);
    if (!first) return [];
    return [
      {
        place: first.place,
        message: `${record.id} cites ${name}, which ${first.what} with effect from ${first.since} (from memory)`,
        hint: first.instead,
        records: [record.id],
        related: others.map(({ place }) => ({ place, message: 'also here' })),
        data: { act: name },
      },
    ];
  });
};

/** Records of earlier days are not judged at all. */
const firstDay = [actsOutdatedSince, outdatedSince].sort()[0] ?? outdatedSince;

export const outdatedCitation = defineCheck({
  code: 'outdated-citation',
  level: 'warning',
  title: 'A law, or a section of law, is cited that no longer exists',
  basis:
    '21 CFR 820 as amended, in force since 2 February 2026 (89 FR 7496); Article 122 of Regulation (EU) 2017/745 and Article 112 of Regulation (EU) 2017/746 (from memory)',
  explain:
    'Since 2 February 2026 part 820 refers to ISO 13485:2016 and keeps only the sections 820.1, 820.3, 820.7, 820.10, 820.35 and 820.45. The record cites another one, such as 820.30 on design controls. Records whose own date lies before that day are not judged: nobody asks that old records be rewritten.\n\nDirectives 93/42/EEC and 90/385/EEC were repealed with effect from 26 May 2021, Directive 98/79/EC with effect from 26 May 2022; MEDDEV documents are guidance on them. These rows are from memory. A sentence that tells of the past may name them: "was certified under", "replaced", "formerly".\n\nAn inspector reads a dead citation as a sign that procedures were not carried over, and looks at what else was not.\n\nCite the clause of ISO 13485:2016 that asks for the same. The hint names it where one clause does.',
  examines: 'records',
  subjects: ({ graph, asOf }) =>
    [...graph.records.values()].filter(
      (record) => record.sound && record.status !== 'retired' && (dayOfRecord(record) ?? asOf) >= firstDay,
    ),
  judge: (record, { asOf }) => {
    const day = dayOfRecord(record) ?? asOf;
    return [...(day >= outdatedSince ? sectionsCited(record) : []), ...actsCited(record, day)];
  },
});

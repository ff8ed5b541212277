import { dayOfRecord } from '../records/record-day.ts';
import { recordTexts } from '../records/record-texts.ts';
import { firstTermOutdated, outdatedMentions, termProvenance } from '../regulation/outdated-terms.ts';
import { type Draft, defineCheck } from './check.ts';

export const outdatedTerm = defineCheck({
  code: 'outdated-term',
  level: 'warning',
  title: 'A term is used that law or a standard has replaced',
  basis: '21 CFR 820 as amended, in force since 2 February 2026 (89 FR 7496)',
  explain:
    'The record uses a name that no longer holds on its day, such as design history file, which became the design and development file (ISO 13485:2016 7.3.10) on 2 February 2026. Records whose own date lies before that day are not judged, and a passage that tells of the past ("formerly the design history file") may use the old name. The list is data, each term with its day and with how it is known.\n\nOld names show that procedures were not carried over, and two names for one file make readers look for two files.\n\nUse the term that the hint names, or say that the old one is of the past.',
  examines: 'records',
  subjects: ({ graph, asOf }) =>
    [...graph.records.values()]
      .filter((record) => record.sound && record.status !== 'retired')
      .map((record) => ({ record, day: dayOfRecord(record) ?? asOf }))
      .filter(({ day }) => day >= firstTermOutdated),
  judge: ({ record, day }) => {
    const found = recordTexts(record).flatMap((text) =>
      outdatedMentions(text.text, day).map((mention) => ({
        ...mention,
        place: text.placeAt(mention.offset, mention.text.length),
      })),
    );
    return [...new Set(found.map((mention) => mention.term))].flatMap((term): readonly Draft[] => {
      const [first, ...others] = found.filter((mention) => mention.term === term);
      if (!first) return [];
      return [
        {
          place: first.place,
          message: `${record.id} uses "${first.text}", which is outdated since ${term.since}`,
          hint: `Say "${term.instead}" instead. Known from: ${termProvenance[term.provenance] ?? term.provenance}`,
          records: [record.id],
          related: others.map((mention) => ({ place: mention.place, message: 'also here' })),
          data: { term: term.term, since: term.since },
        },
      ];
    });
  },
});

import { anyDatedMentions } from '../records/any-standard-mentions.ts';
import { isOfType, placeOf, type TechnicalRecord } from '../records/record.ts';
import { type RecordText, recordTexts } from '../records/record-texts.ts';
import { datedMentionsOf } from '../records/standard-mentions.ts';
import { type Draft, defineCheck } from './check.ts';

/** Whether a mention names a listed standard, or an adoption of one. */
type IsListed = (mention: string) => boolean;

interface Subject {
  readonly record: TechnicalRecord;
  readonly isListed: IsListed;
}

/** Standards that a biological evaluation gives for its reports, number and edition in fields of their own. */
const reportTexts = (record: TechnicalRecord): readonly RecordText[] =>
  isOfType(record, 'biological-evaluation')
    ? record.fields.endpoints.flatMap(({ report }, index) =>
        report?.standard === undefined || report.edition === undefined
          ? []
          : [
              {
                text: `${report.standard}:${report.edition}`,
                placeAt: () => placeOf(record, 'endpoints', index, 'report', 'standard'),
              },
            ],
      )
    : [];

const judge = ({ record, isListed }: Subject): readonly Draft[] => {
  const found = [...recordTexts(record), ...reportTexts(record)].flatMap((text) =>
    anyDatedMentions(text.text)
      .filter((mention) => !isListed(mention.text))
      .map((mention) => ({ ...mention, place: text.placeAt(mention.offset, mention.text.length) })),
  );
  return [...new Set(found.map(({ designation }) => designation))].flatMap(
    (designation): readonly Draft[] => {
      const [first, ...others] = found.filter((mention) => mention.designation === designation);
      if (!first) return [];
      return [
        {
          place: first.place,
          message: `${record.id} cites ${first.text}, and no standard record lists ${designation}`,
          hint: 'Add a standard record with its edition and the extent to which it was applied, or take the year away where the standard was not applied.',
          records: [record.id],
          related: others.map(({ place }) => ({ place, message: 'also here' })),
          data: { cited: first.text },
        },
      ];
    },
  );
};

export const standardNotListed = defineCheck({
  code: 'standard-not-listed',
  level: 'warning',
  title: 'A dated standard is cited that the list of standards does not have',
  basis: 'Regulation (EU) 2017/745 Annex II 4(c)',
  explain:
    'A record cites a standard with a year, or a biological evaluation names a standard and its edition for a report, and no standard record has this designation. An adoption of a listed standard, such as EN ISO for ISO, counts as listed. Standard records may name others, for example those that they replace or refer to. A file without any standard record is not judged.\n\nThe list of standards says what was applied, in which edition and to which extent. A standard that stands only in a protocol or a report is left out of it, and nobody watches for its next edition.\n\nAdd the standard to the list. Where it was not applied, name it without a year, or take it out.',
  awaits: ['standard'],
  awaitsAnywhere: true,
  examines: 'records',
  subjects: ({ graph }) => {
    const finders = graph
      .recordsOf('standard')
      .filter(({ status }) => status !== 'retired')
      .map(({ fields }) => datedMentionsOf(fields.designation, { adopted: 'too' }));
    if (finders.length === 0) return [];
    const isListed: IsListed = (mention) => finders.some((mentions) => mentions(mention).length > 0);
    return [...graph.records.values()]
      .filter((record) => record.sound && record.status !== 'retired' && record.type !== 'standard')
      .map((record) => ({ record, isListed }));
  },
  judge,
});

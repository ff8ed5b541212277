import { placeOf, type RecordOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

type Standard = RecordOf<'standard'>;

/** The year of an edition such as `2018` or `2014+A1:2018`; amendments are no editions of their own. */
const yearOf = ({ fields }: Standard): number =>
  Number(/(?:19|20)\d{2}/.exec(fields.edition)?.[0] ?? Number.NaN);

export const standardListedInTwoEditions = defineCheck<readonly Standard[]>({
  code: 'standard-listed-in-two-editions',
  level: 'warning',
  title:
    'A standard is listed in two editions, and the older one does not say that it was followed by another',
  basis: 'ISO 13485:2016 4.2.4 (control of external documents); Regulation (EU) 2017/745 Annex II 4(c)',
  explain:
    'Two standard records have the same designation and different editions, and the record of the older edition has no `superseded_by`. From then on each of the two may be cited anywhere, and nothing tells which one the file works to.\n\nOlder work may stand on an older edition for good reasons, but somebody has to say so: which edition followed, until when the older one may be used, and what the difference means for what was tested.\n\nAdd `superseded_by` with the later edition to the older record, and the `gap_analysis` that goes with it; or retire the record that the file no longer works to.',
  examines: 'standards in the list',
  subjects: ({ graph }) => {
    const groups = new Map<string, Standard[]>();
    for (const standard of graph.recordsOf('standard')) {
      if (standard.status === 'retired') continue;
      const key = standard.fields.designation.trim().replace(/\s+/g, ' ').toUpperCase();
      groups.set(key, [...(groups.get(key) ?? []), standard]);
    }
    return [...groups.values()];
  },
  judge: (standards) => {
    const byYear = standards
      .filter((each) => !Number.isNaN(yearOf(each)))
      .toSorted((a, b) => yearOf(a) - yearOf(b));
    const latest = byYear.at(-1);
    if (!latest) return [];
    return byYear
      .filter((each) => yearOf(each) < yearOf(latest) && each.fields.superseded_by === undefined)
      .map((older) => ({
        place: placeOf(older, 'edition'),
        message: `${older.id} and ${latest.id} list ${latest.fields.designation} in the editions ${older.fields.edition} and ${latest.fields.edition}, and ${older.id} does not say that its edition was followed by another`,
        hint: `Add "superseded_by" and "gap_analysis" to ${older.id}, or retire the record that the file does not work to.`,
        records: [older.id, latest.id],
        related: [
          {
            place: placeOf(latest, 'edition'),
            message: `${latest.id}: edition ${latest.fields.edition}`,
          },
        ],
      }));
  },
});

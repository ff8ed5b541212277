import type { Place } from '../findings/finding.ts';
import { placeOf, type RecordOf, type TechnicalRecord } from '../records/record.ts';
import { recordTexts } from '../records/record-texts.ts';
import { datedMentionsOf, isYearOf } from '../records/standard-mentions.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

interface Listed {
  readonly records: readonly RecordOf<'standard'>[];
  readonly mentions: ReturnType<typeof datedMentionsOf>;
  readonly adoptions: ReturnType<typeof datedMentionsOf>;
}

interface Subject {
  readonly record: TechnicalRecord;
  readonly standards: readonly Listed[];
}

/** Standards in the list, those with the same designation together: all their editions may be cited. */
const listed = ({ graph }: CheckContext): readonly Listed[] => {
  const groups = new Map<string, RecordOf<'standard'>[]>();
  for (const standard of graph.recordsOf('standard')) {
    if (standard.status === 'retired') continue;
    const designation = standard.fields.designation.trim().replace(/\s+/g, ' ');
    groups.set(designation, [...(groups.get(designation) ?? []), standard]);
  }
  return [...groups].map(([designation, records]) => {
    const adoptions = datedMentionsOf(designation, { adopted: 'only' });
    return {
      records,
      mentions: datedMentionsOf(designation),
      // An adoption that is listed itself is judged by its own record.
      adoptions: (text) =>
        adoptions(text).filter(
          (mention) =>
            ![...groups.keys()].some((each) => each !== designation && mention.text.startsWith(each)),
        ),
    };
  });
};

/** Keeps the end of one text out of sight of the next. */
const apart = '\n'.repeat(20);

const judge = ({ record, standards }: Subject): readonly Draft[] => {
  const texts = recordTexts(record);
  const all = texts.map(({ text }) => text).join(apart);
  return standards.flatMap(({ records, mentions, adoptions }): readonly Draft[] => {
    // A standard's own record may tell of its earlier editions.
    if (records.some((standard) => standard.id === record.id)) return [];
    return [mentions, adoptions].flatMap((find): readonly Draft[] => {
      // One look at all texts passes over the standards that the record does not name, which are nearly all.
      if (find(all).length === 0) return [];
      const wrong = texts.flatMap((text) =>
        find(text.text)
          .filter((mention) => !records.some((standard) => isYearOf(mention.year, standard.fields.edition)))
          .map((mention) => ({ ...mention, place: text.placeAt(mention.offset, mention.text.length) })),
      );
      return draftsOf(wrong, find === adoptions, record, records);
    });
  });
};

type Wrong = ReturnType<Listed['mentions']>[number] & { readonly place: Place };

/** One finding for each year that is cited and not listed. */
const draftsOf = (
  wrong: readonly Wrong[],
  isAdoption: boolean,
  record: TechnicalRecord,
  standards: readonly RecordOf<'standard'>[],
): readonly Draft[] => {
  const ids = standards.map((standard) => standard.id);
  const editions = standards.map((standard) => standard.fields.edition).join(' and ');
  return [...new Set(wrong.map((mention) => mention.year))].flatMap((year): readonly Draft[] => {
    const [first, ...others] = wrong.filter((mention) => mention.year === year);
    if (!first) return [];
    return [
      {
        ...(isAdoption ? { level: 'warning' as const } : {}),
        place: first.place,
        message: `${record.id} cites ${first.text}, but ${ids.join(' and ')} ${ids.length > 1 ? 'list' : 'lists'} the edition ${editions}${isAdoption ? ' and no adoption of that year' : ''}`,
        hint: isAdoption
          ? `An adoption has a year of its own, so it may be the edition ${editions} or an older one. Find out which edition it adopts: cite that one, or add a standard record for the adoption.`
          : `Work to the edition ${editions} and cite it, or add a standard record for the other edition that says why it is used.`,
        records: [record.id, ...ids],
        related: [
          ...standards.map((standard) => ({
            place: placeOf(standard, 'edition'),
            message: `${standard.id}: edition ${standard.fields.edition}`,
          })),
          ...others.map((mention) => ({ place: mention.place, message: 'also here' })),
        ],
        data: { cited: first.text, listed: editions },
      },
    ];
  });
};

export const standardEditionDiffers = defineCheck({
  code: 'standard-edition-differs',
  level: 'error',
  title: 'A standard is cited in another edition than the list of standards has',
  basis: 'ISO 13485:2016 4.2.4 (control of external documents); Regulation (EU) 2017/745 Annex II 4',
  explain:
    'A record cites a standard with a year, and the record of that standard lists another edition. Standards that are listed twice may be cited in both editions. Adoptions such as EN ISO carry years of their own: where such a year is that of no listed edition, it is a warning, since the adoption may still be of a listed edition.\n\nEditions differ in what they ask. A reviewer who finds two of them cannot tell which requirements were met, and a test to a superseded edition may leave out what protects the patient today.\n\nFind out which edition the work followed. Correct the citation, or list the older edition as a standard of its own with the reason and what the difference means.',
  examines: 'records',
  subjects: (context) => {
    const standards = listed(context);
    if (standards.length === 0) return [];
    return [...context.graph.records.values()]
      .filter((record) => record.sound && record.status !== 'retired')
      .map((record) => ({ record, standards }));
  },
  judge,
});

import { durationOf, durationsIn, sameDuration } from '../records/duration-words.ts';
import { nearCopiesIn } from '../records/near-copies.ts';
import { oncePerText } from '../records/once-per-text.ts';
import type { Project } from '../records/project.ts';
import { type RecordText, recordTexts } from '../records/record-texts.ts';
import { type Draft, defineCheck } from './check.ts';

/** Words that make a length of time a shelf life where they stand just before or after it. */
const before = /(?:shelf[\s-]life(?:\s(?:of|is|shall be|was))?|use within|keeps for)[\s:"]{1,3}$/i;
const after = /^[\s']{1,3}(?:of storage|shelf[\s-]life|on the shelf|in storage)\b/i;

const number = '-?\\d{1,5}(?:[.,]\\d{1,3})?';

/** `10 to 30 °C`, also with a unit after each number. */
const rangesIn = oncePerText(
  (text): readonly { from: string; to: string; unit: string; offset: number; text: string }[] =>
    [...text.matchAll(new RegExp(`(${number})\\s?(?:°C|%)?\\s(?:to|and)\\s(${number})\\s?(°C|%)`, 'g'))].map(
      (match) => ({
        from: (match[1] ?? '').replace(',', '.'),
        to: (match[2] ?? '').replace(',', '.'),
        unit: match[3] ?? '',
        offset: match.index,
        text: match[0],
      }),
    ),
);

/** Words that make a range one of storage on the label. */
const storageWords =
  /\b(?:store(?:d)?\s(?:at|between|from)|storage\s(?:at|between|from)|keep\s(?:at|between))\s(?:[^.\n]{0,60}\s)?$/i;

interface Known {
  readonly key: string;
  readonly judge: (
    text: RecordText,
  ) => readonly { offset: number; length: number; says: string; wanted: string }[];
}

const knownValues = (project: Project): readonly Known[] => {
  const { shelf_life: shelfLife, storage } = project.fields.phrases ?? {};
  const claim = durationOf(shelfLife ?? '');
  const ranges = rangesIn(storage ?? '');
  return [
    ...(claim && shelfLife !== undefined
      ? [
          {
            key: 'shelf_life',
            judge: ({ text }: RecordText) =>
              durationsIn(text)
                .filter(
                  ({ duration, offset, text: written }) =>
                    !sameDuration(duration, claim) &&
                    (before.test(text.slice(Math.max(0, offset - 40), offset)) ||
                      after.test(text.slice(offset + written.length, offset + written.length + 30))),
                )
                .map(({ offset, text: written }) => ({
                  offset,
                  length: written.length,
                  says: `a shelf life of ${written}`,
                  wanted: shelfLife,
                })),
          },
        ]
      : []),
    ...(ranges.length > 0 && storage !== undefined
      ? [
          {
            key: 'storage',
            judge: ({ text }: RecordText) =>
              rangesIn(text)
                .filter(
                  ({ from, to, unit, offset }) =>
                    storageWords.test(text.slice(Math.max(0, offset - 90), offset)) &&
                    ranges.some((range) => range.unit === unit) &&
                    !ranges.some(
                      (range) =>
                        range.unit === unit &&
                        Number(range.from) === Number(from) &&
                        Number(range.to) === Number(to),
                    ),
                )
                .map(({ offset, text: written }) => ({
                  offset,
                  length: written.length,
                  says: `storage at ${written}`,
                  wanted: storage,
                })),
          },
        ]
      : []),
  ];
};

export const phraseValueDiffers = defineCheck({
  code: 'phrase-value-differs',
  level: 'warning',
  title: 'A text gives another shelf life or storage range than the single source',
  basis: 'common practice, no source',
  explain:
    'plinth.yaml holds the shelf life or the storage conditions under `phrases`, and a text gives others in its own words: "a shelf life of 2 years", "use within 24 months", "store at 5 to 30 °C". 36 months are 3 years.\n\nShort wordings are too common to be looked for word by word, so the values are read out. A drawing, a protocol or a leaflet with another value was written for another state of the device.\n\nCorrect the text, or the single source. Where something else is meant, such as the shelf life of a raw material, say so in other words or waive the finding with the reason.',
  examines: 'records, by the shelf life and the storage range',
  subjects: ({ graph, project }) => {
    const known = knownValues(project);
    return known.length === 0
      ? []
      : [...graph.records.values()]
          .filter((record) => record.sound && record.status !== 'retired')
          .map((record) => ({ record, known }));
  },
  judge: ({ record, known }, { project }): readonly Draft[] => {
    // Wordings under `states` must be equal to the letter; phrase-differs judges them.
    const texts = recordTexts(record).filter(({ path }) => path?.[0] !== 'states');
    return known.flatMap(({ key, judge }) => {
      const copiesIn = nearCopiesIn(project.fields.phrases?.[key] ?? '');
      return texts.flatMap((text) => {
        const values = judge(text);
        // A copy of the wording with a difference is told of by phrase-differs.
        const copies = values.length === 0 ? [] : copiesIn(text.text);
        const isInCopy = (offset: number): boolean =>
          copies.some((copy) => offset >= copy.offset && offset < copy.offset + copy.length);
        return values
          .filter(({ offset }) => !isInCopy(offset))
          .map(({ offset, length, says, wanted }) => ({
            place: text.placeAt(offset, length),
            message: `${record.id} gives ${says}, plinth.yaml has "${wanted}"`,
            hint: `Write what the wording "${key}" says, or change it there for the whole file.`,
            records: [record.id],
            related: [{ place: project.yaml.place(['phrases', key]), message: `the wording "${key}"` }],
            data: { phrase: key },
          }));
      });
    });
  },
});

import { cutExclusionsIn, otherNumbersIn } from '../records/altered-phrases.ts';
import { type NearCopy, nearCopiesIn, wordDifference } from '../records/near-copies.ts';
import { nearestName } from '../records/nearest-name.ts';
import type { Project } from '../records/project.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { recordTexts } from '../records/record-texts.ts';
import { type Draft, defineCheck } from './check.ts';

const onOneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

const source = (project: Project, key: string) => ({
  place: project.yaml.place(['phrases', key]),
  message: `the wording "${key}"`,
});

/** Wordings that the record says it repeats. */
const judgeStates = (record: TechnicalRecord, project: Project): readonly Draft[] => {
  const phrases = project.fields.phrases ?? {};
  const states = (record.fields['states'] ?? {}) as Readonly<Record<string, string>>;
  return Object.entries(states).flatMap(([key, actual]): readonly Draft[] => {
    const expected = Object.hasOwn(phrases, key) ? phrases[key] : undefined;
    if (expected === undefined) {
      const near = nearestName(key, Object.keys(phrases));
      return [
        {
          place: record.yaml.place(['states', key], 'key'),
          message: `${record.id} states "${key}", a wording that plinth.yaml does not have`,
          hint: near
            ? `Did you mean "${near}"?`
            : 'Add the wording under "phrases" in plinth.yaml, or correct the key.',
          records: [record.id],
          data: { phrase: key },
        },
      ];
    }
    if (onOneLine(actual) === onOneLine(expected)) return [];
    return [
      {
        place: placeOf(record, 'states', key),
        message: `${record.id} states ${key} with ${wordDifference(actual, expected)}`,
        hint: 'Use the wording of plinth.yaml, or change it there for the whole file.',
        records: [record.id],
        related: [source(project, key)],
        data: { phrase: key, actual: onOneLine(actual), expected: onOneLine(expected) },
      },
    ];
  });
};

interface Wording {
  readonly key: string;
  readonly expected: string;
  /** Nearly the wording, or a cut of what it excludes. */
  readonly copiesIn: (text: string) => readonly NearCopy[];
  readonly otherNumbersIn: (text: string) => readonly NearCopy[];
}

/** Values that phrase-value-differs reads out of any words. */
const readByValue: ReadonlySet<string> = new Set(['shelf_life', 'storage']);

/** Records that say what the device is. Those of tests and events hold readings and challenges with numbers of their own. */
const saysWhatItIs: ReadonlySet<string> = new Set([
  'benefit-risk',
  'claim',
  'classification',
  'design-input',
  'design-output',
  'document',
  'legal-requirement',
  'risk-control',
  'risk-plan',
  'use-specification',
  'user-need',
]);

const apart = (copies: readonly NearCopy[]): readonly NearCopy[] =>
  copies.filter(
    (copy, index) =>
      !copies
        .slice(0, index)
        .some(
          (other) => copy.offset < other.offset + other.length && other.offset < copy.offset + copy.length,
        ),
  );

/** The wordings of a file, prepared once for all of its texts. */
const wordingsOf = (project: Project): readonly Wording[] => {
  const { phrases = {} } = project.fields;
  const prepared =
    known.get(phrases) ??
    Object.entries(phrases).map(([key, expected]): Wording => {
      const [near, cut] = [nearCopiesIn(expected), cutExclusionsIn(expected)];
      return {
        key,
        expected,
        copiesIn: (text) => apart([...near(text), ...cut(text)]),
        otherNumbersIn: readByValue.has(key) ? () => [] : otherNumbersIn(expected),
      };
    });
  known.set(phrases, prepared);
  return prepared;
};
const known = new WeakMap<object, readonly Wording[]>();

/** Passages in texts that are nearly a wording. */
const judgeTexts = (record: TechnicalRecord, project: Project): readonly Draft[] => {
  const texts = recordTexts(record).filter((text) => text.path?.[0] !== 'states');
  return wordingsOf(project).flatMap(({ key, expected, copiesIn, otherNumbersIn: numbersIn }) =>
    texts.flatMap(({ path, text, placeAt }) =>
      apart([
        ...copiesIn(text),
        // The history of a document tells of earlier numbers.
        ...(saysWhatItIs.has(record.type) && path?.[0] !== 'revisions' ? numbersIn(text) : []),
      ]).map(
        (copy): Draft => ({
          place: placeAt(copy.offset, copy.length),
          message: `${record.id} repeats ${key} with ${wordDifference(copy.text, expected)}`,
          hint: 'Use the wording of plinth.yaml word for word, or say it in other words where something else is meant.',
          records: [record.id],
          related: [source(project, key)],
          data: { phrase: key, actual: copy.text, expected: onOneLine(expected) },
        }),
      ),
    ),
  );
};

export const phraseDiffers = defineCheck({
  code: 'phrase-differs',
  level: 'error',
  title: 'A wording that must be the same everywhere differs',
  basis: 'common practice, no source',
  explain:
    'Wordings such as the intended purpose stand once in plinth.yaml under `phrases`. A record repeats one with a difference: under `states`, or in its text, where a passage starts or ends like the wording and shares most of its words without being the wording, where it has the words of a wording with other numbers, or where a statement of what is excluded is cut: "Not for injecting liquids." for "Not for injecting liquids or cements". Other numbers are looked for where a record says what the device is, not in those of tests and events, and not where the text makes a limit or a reading of them ("at least 0.45 cm³"). Line breaks, marks of Markdown and the full stop at the end make no difference.\n\nThe intended purpose decides class, tests and clinical evidence. Two versions of it mean that a part of the file may speak about another device, other users or other patients. Notified bodies return files for this.\n\nRepeat the wording word for word, or take it from plinth.yaml where the document allows it. If the new version is the right one, change plinth.yaml and see what else then differs.',
  examines: 'records',
  subjects: ({ graph, project }) =>
    [...graph.records.values()].filter(
      (record) =>
        record.sound &&
        record.status !== 'retired' &&
        (record.fields['states'] !== undefined || Object.keys(project.fields.phrases ?? {}).length > 0),
    ),
  judge: (record, { project }) => [...judgeStates(record, project), ...judgeTexts(record, project)],
});

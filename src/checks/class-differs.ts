import type { Project } from '../records/project.ts';
import { placeOf, type RecordOf, type TechnicalRecord } from '../records/record.ts';
import { type RecordText, recordTexts } from '../records/record-texts.ts';
import { type Draft, defineCheck } from './check.ts';

type Classification = RecordOf<'classification'>;

/** Records whose texts speak of the device as it is put before authorities and users. */
const speaksOfClass: ReadonlySet<string> = new Set([
  'authority-question',
  'design-output',
  'design-plan',
  'document',
  'legal-requirement',
  'risk-plan',
  'submission',
  'use-specification',
]);

/** Classes of Regulation (EU) 2017/745; `Is`, `Im` and `Ir` are class I by its features. "Class II" is no class of it. */
const mention = /\bclass:?\s{1,3}(III|IIa|IIb|I[smr]?)(?![\p{L}\p{N}])/giu;

const plainClass = (written: string): string => {
  const roman = /^i+/i.exec(written)?.[0].toUpperCase() ?? '';
  return `${roman}${roman === 'II' ? written.slice(2).toLowerCase() : ''}`;
};

/** Sentences that speak of a class other than that of this device under the Regulation, or under a condition. */
const speaksOfOther =
  /\b(?:comparable|competitor|equivalent|predicate|similar|other|another|earlier|formerly|would|were|if|unless|had|should|FDA|510\(k\)|21 CFR|United States|US|USA|electric\w*|insulation|laser|equipment|clean\s?room|graft|accessor\w+|devices|implants)\b/i;

const denied = /\b(?:not|nor|neither|no|never|than|from|except|between|or|and)\b[^.;]{0,25}$/i;

const declaration = /^```plinth declaration\b/m;

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** `The device is`, `DGA-1 is`: what is said of the device itself. */
const subject = ({ fields: { device } }: Project): RegExp => {
  const names = [device.code, device.name]
    .filter((each) => each !== undefined && each.trim() !== '')
    .map((each) => escaped(each ?? ''));
  return new RegExp(
    `(?:\\b(?:the|this|our) (?:device|product)|:device\\[[a-z_]{1,20}\\]${names.map((name) => `|${name}`).join('')})[*_]{0,2}\\s(?:is|belongs|falls|remains)\\s[^.;:\\n]{0,40}$`,
    'i',
  );
};

interface Mention {
  readonly offset: number;
  readonly text: string;
  readonly says: string;
}

const mentionsOf = (
  text: string,
  record: TechnicalRecord,
  path: RecordText['path'],
  classes: readonly Classification[],
  saysOfDevice: RegExp,
): readonly Mention[] => {
  // What a record says of itself, in a title or in the purpose of a submission.
  const isHeadline =
    path !== undefined && (record.type === 'submission' || ['title', 'subtitle'].includes(String(path[0])));
  const isDeclaration = path === undefined && declaration.test(record.body);
  return [...text.matchAll(mention)].flatMap((match): readonly Mention[] => {
    const written = plainClass(match[1] ?? '');
    const end = match.index + match[0].length;
    const before = text.slice(Math.max(0, match.index - 160), match.index);
    const clause = before.slice(before.search(/[^.;\n|]*$/));
    const after = text.slice(end, end + 80);
    const [rest = ''] = after.split(/[.;\n|]/);
    if (denied.test(clause) || speaksOfOther.test(clause) || speaksOfOther.test(rest)) return [];
    const rule =
      /^[,(]?\s{0,2}\(?(?:under|by|per|of|according to|following|after|in line with)?\s?rule\s(\d{1,2})\b/i.exec(
        after,
      );
    if (rule) {
      const number = Number(rule[1]);
      const isKnown = classes.some(({ fields }) =>
        fields.rules.some(
          (row) => row.rule === number && (row.class === undefined || plainClass(row.class) === written),
        ),
      );
      return isKnown
        ? []
        : [
            {
              offset: match.index,
              text: `${match[0]}${rule[0]}`,
              says: `class ${written} by rule ${number}`,
            },
          ];
    }
    const isOfDevice =
      isDeclaration ||
      saysOfDevice.test(clause) ||
      (isHeadline && /\b(?:a|the|this)\s$/i.test(clause) && /^\s(?:medical )?device\b/i.test(after));
    return isOfDevice && !classes.some(({ fields }) => plainClass(fields.class) === written)
      ? [{ offset: match.index, text: match[0], says: `class ${written}` }]
      : [];
  });
};

export const classDiffers = defineCheck({
  code: 'class-differs',
  level: 'error',
  title: 'A text gives another class than the classification',
  basis:
    'Regulation (EU) 2017/745 Annex II 1.1(f) and Annex IV item 5; that the texts agree is common practice, no source',
  explain:
    'A text puts the device in a class that is not that of the classification record: "class IIb under rule 8" where the record has no rule 8 with that class, "the device is class I", "a class IIb device" in a field of a submission, or any other class in a document that draws the declaration of conformity. Sentences on other devices, on the classes of the United States, on electrical protection and under a condition are left alone, and so are those with "not" or "neither".\n\nThe class decides the route and the part of the notified body. Two classes in one file come back as a question, and one of them stands on a test plan that was made for another device.\n\nCorrect the text, or have the classification decided anew. Whether a rule applies is for qualified people; this check only compares what they wrote.',
  examines: 'records that speak of the device, where there is a classification',
  subjects: ({ graph, project }) => {
    const classes = graph.recordsOf('classification').filter(({ status }) => status !== 'retired');
    if (classes.length === 0) return [];
    const saysOfDevice = subject(project);
    return [...graph.records.values()]
      .filter(({ sound, status, type }) => sound && status !== 'retired' && speaksOfClass.has(type))
      .map((record) => ({ record, classes, saysOfDevice }));
  },
  judge: ({ record, classes, saysOfDevice }): readonly Draft[] =>
    recordTexts(record)
      .filter(({ path }) => path?.[0] !== 'revisions')
      .flatMap(({ path, text, placeAt }) =>
        mentionsOf(text, record, path, classes, saysOfDevice).map(({ offset, text: found, says }) => ({
          place: placeAt(offset, found.length),
          message: `${record.id} says ${says}, and ${classes.map(({ id, fields }) => `${id} has class ${fields.class} by rule ${fields.relied_on}`).join(', ')}`,
          hint: 'Correct the text, or have the classification decided anew.',
          records: [record.id, ...classes.map(({ id }) => id)],
          related: classes.map((each) => ({
            place: placeOf(each, 'class'),
            message: `class in ${each.id}`,
          })),
        })),
      ),
});

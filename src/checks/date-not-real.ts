import type { Place } from '../findings/finding.ts';
import type { Approval } from '../graph/approvals.ts';
import { isDateShaped, isRealDate } from '../records/calendar.ts';
import { placeOf } from '../records/record.ts';
import { fieldTexts } from '../records/record-texts.ts';
import { type CheckContext, defineCheck } from './check.ts';

interface WrittenDate {
  readonly text: string;
  /** A place costs a walk through the file, so it is looked up for wrong dates only. */
  readonly place: () => Place;
  readonly owner: string;
  readonly field: string;
  readonly records: readonly string[];
}

/** `actions[1].due`: entries of lists are counted from 1, as in all messages. */
const fieldName = (path: readonly (string | number)[]): string =>
  path
    .map((step) => (typeof step === 'number' ? `[${step + 1}]` : `.${step}`))
    .join('')
    .slice(1);

const datesOfRecords = ({ graph }: CheckContext): readonly WrittenDate[] =>
  [...graph.records.values()]
    .filter((record) => record.sound && record.status !== 'retired')
    .flatMap((record) => {
      const about = { owner: record.id, records: [record.id] };
      const approvals = (record.fields['approvals'] ?? []) as readonly Approval[];
      return [
        ...fieldTexts(record)
          .filter(({ text }) => isDateShaped(text))
          .map(({ text, path = [], placeAt }) => ({
            ...about,
            text,
            field: fieldName(path),
            place: () => placeAt(0, text.length),
          })),
        ...approvals.map(({ date }, index) => ({
          ...about,
          text: date,
          field: fieldName(['approvals', index, 'date']),
          place: () => placeOf(record, 'approvals', index, 'date'),
        })),
      ].filter((each) => isDateShaped(each.text));
    });

const datesOfProject = ({ project }: CheckContext): readonly WrittenDate[] => {
  const at = (text: string, ...path: readonly (string | number)[]): WrittenDate => ({
    text,
    place: () => project.yaml.place(path),
    owner: 'plinth.yaml',
    field: fieldName(path),
    records: [],
  });
  const { as_of: asOf, waivers = [] } = project.fields;
  return [
    ...(asOf === undefined ? [] : [at(asOf, 'as_of')]),
    ...waivers.flatMap(({ date, expires }, index) => [
      at(date, 'waivers', index, 'date'),
      at(expires, 'waivers', index, 'expires'),
    ]),
  ].filter((each) => isDateShaped(each.text));
};

export const dateNotReal = defineCheck({
  code: 'date-not-real',
  level: 'error',
  title: 'A date does not exist in the calendar',
  basis:
    'ISO 13485:2016 4.2.5 (legible and retrievable records); common practice, no source, for the calendar',
  explain:
    'A field is written as a date, YYYY-MM-DD, but there is no such day: 30 February, or a thirteenth month. Dates are compared as they are written, so calibration, approval before execution and the age of units would be judged by a day that never was.\n\nThe order of events is what makes a test believable. A reviewer who finds an impossible date cannot rely on the possible ones next to it.\n\nCorrect the date from the original note or certificate. Where the day and month were exchanged, look for others of the same hand.',
  examines: 'dates',
  subjects: (context) => [...datesOfProject(context), ...datesOfRecords(context)],
  judge: ({ text, place, owner, field, records }) =>
    isRealDate(text)
      ? []
      : [
          {
            place: place(),
            message: `${owner} has the date ${text} in ${field}, which does not exist`,
            hint: 'Correct the date from the original note or certificate.',
            records,
            data: { date: text, field },
          },
        ],
});

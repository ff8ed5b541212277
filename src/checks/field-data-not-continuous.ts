import { countedRisks, fieldCounts } from '../evidence/counted-risks.ts';
import type { FieldCounts } from '../evidence/field-counts.ts';
import type { SeriesPart } from '../evidence/field-experience.ts';
import { namedPeriod } from '../records/named-period.ts';
import { dayAfter } from '../records/period.ts';
import { placeOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

/** Rows of one record, whose names say when they were, against the period of the record. */
const withinRecord = ({ record, periods }: FieldCounts): readonly Draft[] => {
  const { from, to } = record.fields.period;
  const rows = periods.flatMap(({ name, place }) => {
    const span = namedPeriod(name);
    return span ? [{ name, place, span }] : [];
  });
  // Names such as "lot 7" say nothing of when it was.
  if (rows.length < periods.length || rows.length === 0 || to < from) return [];
  const drafts: Draft[] = [];
  let next: string | undefined = from;
  for (const { name, place, span } of rows) {
    if (span.to < from || span.from > to)
      drafts.push({
        place,
        message: `${record.id}: ${name} lies outside the period of the record, ${from} to ${to}`,
        hint: 'Take the row out, or correct the period of the record.',
        records: [record.id],
      });
    else {
      if (next !== undefined && span.from > next)
        drafts.push({
          place,
          message: `${record.id}: nothing is counted from ${next} to the day before ${name}`,
          hint: 'Add the row that is missing, with 0 events where there were none.',
          records: [record.id],
        });
      next = dayAfter(span.to);
    }
  }
  const last = rows.at(-1);
  if (last && last.span.to < to && last.span.to >= from)
    drafts.push({
      place: last.place,
      message: `${record.id}: nothing is counted after ${last.name}, and the period of the record ends on ${to}`,
      hint: 'Add the rows that are missing, or correct the period of the record.',
      records: [record.id],
    });
  return drafts;
};

/** Two records of one series that follow each other. */
const betweenRecords = ([earlier, later]: readonly [SeriesPart, SeriesPart]): readonly Draft[] => {
  const end = earlier.record.fields.period.to;
  const start = later.record.fields.period.from;
  const expected = dayAfter(end);
  if (expected === undefined || start === expected) return [];
  const ids = [later.record.id, earlier.record.id];
  const related = [
    { place: placeOf(earlier.record, 'period', 'to'), message: `the end of ${earlier.record.id}` },
  ];
  const { column, risk } = later.counted;
  return [
    {
      place: placeOf(later.record, 'period', 'from'),
      message:
        start > expected
          ? `"${column}" of ${risk.id} was counted until ${end} in ${earlier.record.id} and from ${start} in ${later.record.id}, and by nobody in between`
          : `"${column}" of ${risk.id} was counted until ${end} in ${earlier.record.id} and from ${start} in ${later.record.id}: days in both are counted twice`,
      hint:
        start > expected
          ? 'Add the counts of the days between.'
          : 'Correct the periods, or give the column another heading where another source counted.',
      records: ids,
      related,
    },
  ];
};

type Subject = { readonly counts: FieldCounts } | { readonly neighbours: readonly [SeriesPart, SeriesPart] };

export const fieldDataNotContinuous = defineCheck({
  code: 'field-data-not-continuous',
  level: 'warning',
  title: 'Field data leave out a time, or count it twice',
  basis: 'Regulation (EU) 2017/745 Article 83(2) (actively and systematically, over the whole lifetime)',
  explain:
    'The rows of a record (2027, 2027-H1, 2027-Q1 or 2027-01) leave a gap, lie outside the period that the record names, or end before it; or two records that go on counting the same do not follow each other: there are days in none of them, or in both.\n\nA quarter that nobody counted is often the one in which something happened. Days that are counted twice make a rate look better known than it is, and records that go on counting the same are taken together.\n\nAdd what is missing, with 0 events where there were none, or correct the periods. Where another source counted the same days, give its column a heading of its own. Rows with other names, such as lots, are not judged.',
  examines: 'records of field data, and pairs that follow each other',
  subjects: (context: CheckContext): readonly Subject[] => [
    ...fieldCounts(context).map((counts) => ({ counts })),
    ...countedRisks(context).flatMap(({ parts }) =>
      parts.slice(1).map((later, index) => ({ neighbours: [parts[index] ?? later, later] as const })),
    ),
  ],
  judge: (subject) =>
    'counts' in subject ? withinRecord(subject.counts) : betweenRecords(subject.neighbours),
});

import type { Place } from '../findings/finding.ts';
import { dateIdentifiers, readShortDate } from '../records/gs1.ts';
import { type IdentifierElement, printedElements, readElementString } from '../records/gs1-element-string.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

type Output = RecordOf<'design-output'>;

interface Subject {
  readonly output: Output;
  readonly element: IdentifierElement;
  readonly place: Place;
  /** In words: `the UDI`. */
  readonly where: string;
}

/** First day on which labels of regulated healthcare products state a day in every date. */
const since = '2025-01-01';

const datesIn = (elements: readonly IdentifierElement[]): readonly IdentifierElement[] =>
  elements.filter(({ application }) => Object.hasOwn(dateIdentifiers, application));

const subjectsOf = (output: Output): readonly Subject[] => {
  const coded = datesIn(readElementString(output.fields.udi ?? '').elements);
  return [
    ...coded.map((element) => ({ output, element, place: placeOf(output, 'udi'), where: 'the UDI' })),
    // The words that repeat the UDI have its fault.
    ...(output.fields.particulars ?? []).flatMap(({ clause, content }, index) =>
      datesIn(printedElements(content))
        .filter(
          ({ application, value }) =>
            !coded.some((each) => each.application === application && each.value === value),
        )
        .map((element) => ({
          output,
          element,
          place: placeOf(output, 'particulars', index, 'content'),
          where: `the particular ${clause}`,
        })),
    ),
  ];
};

/** The latest of the days that tell when the label is used: its approvals, else today, and the date of manufacture. */
const usedOn = (output: Output, asOf: string): string => {
  const approvals = (output.fields.approvals ?? []).map(({ date }) => date);
  const made = output.fields.identification?.manufactured ?? '';
  const code = readElementString(output.fields.udi ?? '').elements.find(
    ({ application }) => application === '11',
  )?.value;
  const coded = code === undefined ? undefined : readShortDate(code, Number(asOf.slice(0, 4)));
  const days = [...(approvals.length === 0 ? [asOf] : approvals), made, coded?.day ?? ''];
  return days.sort().at(-1) ?? asOf;
};

export const gs1DayMissing = defineCheck({
  code: 'gs1-day-missing',
  level: 'warning',
  title: 'A date in an identifier has the day 00',
  basis:
    'GS1 General Specifications, dates on regulated healthcare products since 2025-01-01 (change notification GSCN 21-040, from secondary sources: GS1 UK and GS1 Sweden, "Change of date format for regulated healthcare products")',
  explain:
    'A date of manufacture (11) or a use-by date (17) has the day 00, which stood for a month without a day. Since 2025-01-01 GS1 no longer allows it on regulated healthcare products, to which medical devices belong. Labels are examined that were approved in 2025 or later, that carry a date of manufacture of 2025 or later, or that nobody has approved yet.\n\nOne reader takes 00 for the first day of the month and another for the last, so a device is used too long or thrown away too early. Newer scanners and databases refuse the code.\n\nEncode the day that holds. For a use-by date this is the last day of the month where the label prints only the month, if that is what was meant. Labels that were printed before 2025 may stay as they are; the issuing entity has the exact words of the rule.',
  examines: 'dates in identifiers of labels',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired')
      .flatMap(subjectsOf),
  judge: ({ output, element: { application, value }, place, where }, { asOf }): readonly Draft[] => {
    const date = readShortDate(value, Number(asOf.slice(0, 4)));
    if (!date?.isWholeMonth || usedOn(output, asOf) < since) return [];
    const name = `${dateIdentifiers[application]} (${application})`;
    return [
      {
        place,
        message: `${output.id}: ${where} has the ${name} ${value} with the day 00, which GS1 does not allow on medical devices since ${since}`,
        hint:
          application === '17'
            ? `Encode the day, here and on the artwork: ${value.slice(0, 4)}${date.day.slice(8)} where the last day of the month is meant.`
            : 'Encode the day of manufacture, here and on the artwork.',
        records: [output.id],
        data: { value },
      },
    ];
  },
});

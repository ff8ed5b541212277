import { isRealDate } from '../records/calendar.ts';
import { dayAfter, daysBetween, durationOf } from '../records/duration-words.ts';
import { readShortDate } from '../records/gs1.ts';
import { readElementString } from '../records/gs1-element-string.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Days by which a use-by date may be earlier than the shelf life allows: makers round down to the end of a month. */
const roundedDown = 31;

/** First day of what is printed, for a date of manufacture: the shelf life may not start later. */
const dateOf = (
  output: RecordOf<'design-output'>,
  { field, application }: { readonly field: 'manufactured' | 'use_by'; readonly application: string },
  year: number,
): { readonly text: string; readonly isMonth: boolean } | undefined => {
  const printed = output.fields.identification?.[field];
  if (printed !== undefined) return { text: printed, isMonth: printed.length === 7 };
  const coded = readElementString(output.fields.udi ?? '').elements.find(
    (element) => element.application === application,
  )?.value;
  const date = coded === undefined ? undefined : readShortDate(coded, year);
  return date && { text: date.isWholeMonth ? date.day.slice(0, 7) : date.day, isMonth: date.isWholeMonth };
};

const lastDay = (month: string): string => {
  const next = dayAfter(`${month}-01`, { count: 1, unit: 'month' });
  return (next && dayAfter(next, { count: -1, unit: 'day' })) ?? month;
};

export const useByDiffersFromShelfLife = defineCheck({
  code: 'use-by-differs-from-shelf-life',
  level: 'error',
  title: 'A use-by date is not the date of manufacture and the shelf life',
  basis:
    'Regulation (EU) 2017/745 Annex I 23.2(i) and 23.3(i); counting from the date of manufacture is common practice, no source',
  explain:
    'The label prints a date of manufacture and a use-by date, and plinth.yaml has the wording `shelf_life`. The use-by date lies after the end of the shelf life, or more than a month before it. A month without a day counts from its first day for manufacture and to its last day for use.\n\nDevices are then used longer than was shown, or thrown away without need.\n\nCompute the date again. Where the shelf life is counted from another day, such as sterilisation, print that day or say so in a waiver.',
  examines: 'labels with both dates',
  subjects: ({ graph, project, asOf }) => {
    const shelfLife = durationOf(project.fields.phrases?.['shelf_life'] ?? '');
    if (!shelfLife) return [];
    const year = Number(asOf.slice(0, 4));
    return graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired')
      .flatMap((output) => {
        const made = dateOf(output, { field: 'manufactured', application: '11' }, year);
        const useBy = dateOf(output, { field: 'use_by', application: '17' }, year);
        return made && useBy ? [{ output, made, useBy, shelfLife }] : [];
      });
  },
  judge: ({ output, made, useBy, shelfLife }, { project }) => {
    const start = made.isMonth ? `${made.text}-01` : made.text;
    const stop = useBy.isMonth ? lastDay(useBy.text) : useBy.text;
    if (!isRealDate(start) || !isRealDate(stop)) {
      const wrong = isRealDate(start) ? useBy.text : made.text;
      return [
        {
          place: placeOf(output, 'identification'),
          message: `${output.id} prints ${wrong}, which is no day of the calendar`,
          hint: 'Correct the date here and on the artwork.',
          records: [output.id],
        },
      ];
    }
    const end = dayAfter(start, shelfLife) ?? start;
    const over = daysBetween(end, stop);
    // A month of manufacture ends later than its first day, and the use-by month may end with the same day of the month.
    const allowed = made.isMonth && useBy.isMonth ? 31 : 0;
    if (over <= allowed && over >= -roundedDown) return [];
    const words = `${shelfLife.count} ${shelfLife.unit}${shelfLife.count === 1 ? '' : 's'}`;
    return [
      {
        place: output.fields.identification
          ? placeOf(output, 'identification', ...(output.fields.identification.use_by ? ['use_by'] : []))
          : placeOf(output, 'udi'),
        ...(over < 0 ? { level: 'warning' as const } : {}),
        message: `${output.id} has the use-by date ${useBy.text}, ${Math.abs(over)} d ${over > 0 ? 'after' : 'before'} the end of ${words} from the date of manufacture ${made.text}, which is ${end}`,
        hint: 'Compute the date again from the date of manufacture, here and on the artwork.',
        records: [output.id],
        related: [{ place: project.yaml.place(['phrases', 'shelf_life']), message: 'the shelf life' }],
        data: { end, useBy: useBy.text },
      },
    ];
  },
});

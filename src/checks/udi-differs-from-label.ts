import { gtinProblem, readShortDate } from '../records/gs1.ts';
import { readElementString } from '../records/gs1-element-string.ts';
import type { Project } from '../records/project.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

type Output = RecordOf<'design-output'>;

const difference = (output: Output, field: string, message: string, related: Draft['related']): Draft => ({
  place: placeOf(output, 'udi'),
  message: `${output.id}: ${message}`,
  hint: 'Correct whichever is wrong, here and on the artwork.',
  records: [output.id],
  related: related ?? [{ place: placeOf(output, 'identification', field), message: 'as printed' }],
});

/** The device identifier is one of the device, and that of the packaging level. */
const judgeDevice = (output: Output, gtin: string, { fields, yaml }: Project): readonly Draft[] => {
  const identifiers = fields.device.identifiers ?? [];
  // A number that is wrong by itself is told by gs1-check-digit-wrong.
  if (identifiers.length === 0 || gtinProblem(gtin, [14])) return [];
  const found = identifiers.findIndex((each) => each.gtin === gtin);
  const level = output.fields.identification?.level;
  const listed = level === undefined ? -1 : identifiers.findIndex((each) => each.level === level);
  const at = (index: number, message: string): Draft['related'] => [
    { place: yaml.place(['device', 'identifiers', Math.max(index, 0), 'gtin']), message },
  ];
  if (level !== undefined && listed === -1)
    return [
      {
        place: placeOf(output, 'identification', 'level'),
        message: `${output.id} is a label of the level "${level}", and plinth.yaml has ${identifiers.map((each) => `"${each.level}"`).join(', ')}`,
        hint: 'Use the words of device.identifiers in plinth.yaml, or add the level there.',
        records: [output.id],
      },
    ];
  if (listed !== -1 && identifiers[listed]?.gtin !== gtin)
    return [
      difference(
        output,
        'level',
        `the UDI has the device identifier ${gtin}, and the level "${level}" has ${identifiers[listed]?.gtin}`,
        at(listed, `the level "${level}"`),
      ),
    ];
  return found === -1
    ? [
        difference(
          output,
          'level',
          `the UDI has the device identifier ${gtin}, which is none of the device`,
          at(0, 'identifiers of the device'),
        ),
      ]
    : [];
};

const dates = [
  { application: '11', field: 'manufactured', name: 'date of manufacture' },
  { application: '17', field: 'use_by', name: 'use-by date' },
] as const;

const texts = [
  { application: '10', field: 'lot', name: 'lot' },
  { application: '21', field: 'serial', name: 'serial number' },
] as const;

export const udiDiffersFromLabel = defineCheck({
  code: 'udi-differs-from-label',
  level: 'error',
  title: 'A unique device identifier says something else than the label or the list of devices',
  basis:
    'Regulation (EU) 2017/745 Annex I 23.2(g), 23.2(h), 23.2(i) and Annex VI part C (UDI-DI and UDI-PI, from memory); 21 CFR 820.45(a) (label examination, from a secondary source)',
  explain:
    'The device identifier in the `udi` of a label is none of those in plinth.yaml, or that of another packaging level; or lot, serial number or a date in it differ from what `identification` says is printed beside it, or stand only in one of the two.\n\nThe scanner and the eye then tell two different devices. In a recall by lot, some units are not found.\n\nCompare the batch record, the data of the printer and the artwork. A date printed as a month agrees with any day of that month; gs1-day-missing tells of days 00 in the identifier.',
  examines: 'unique device identifiers',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired' && output.fields.udi !== undefined),
  judge: (output, { project, asOf }): readonly Draft[] => {
    const { elements } = readElementString(output.fields.udi ?? '');
    const valueOf = (application: string): string | undefined =>
      elements.find((element) => element.application === application)?.value;
    const gtin = valueOf('01');
    const printed = output.fields.identification;
    const about = gtin === undefined ? [] : judgeDevice(output, gtin, project);
    if (!printed) return about;
    const year = Number(asOf.slice(0, 4));
    return [
      ...about,
      ...texts.flatMap(({ application, field, name }): readonly Draft[] => {
        const coded = valueOf(application);
        const text = printed[field];
        if (coded === text || (coded === undefined && field === 'serial')) return [];
        if (coded === undefined)
          return [
            difference(
              output,
              field,
              `the UDI has no ${name} (${application}), and ${text} is printed`,
              undefined,
            ),
          ];
        return [
          difference(
            output,
            field,
            text === undefined
              ? `the UDI has the ${name} ${coded}, and none is printed`
              : `the UDI has the ${name} ${coded}, and ${text} is printed`,
            text === undefined
              ? [{ place: placeOf(output, 'identification'), message: 'as printed' }]
              : undefined,
          ),
        ];
      }),
      ...dates.flatMap(({ application, field, name }): readonly Draft[] => {
        const coded = valueOf(application);
        const text = printed[field];
        if (coded === undefined || text === undefined) return [];
        const date = readShortDate(coded, year);
        // A date that is none is told by gs1-check-digit-wrong.
        if (!date) return [];
        const agrees =
          date.isWholeMonth || text.length === 7
            ? date.day.slice(0, 7) === text.slice(0, 7)
            : date.day === text;
        return agrees
          ? []
          : [
              difference(
                output,
                field,
                `the UDI has the ${name} ${date.isWholeMonth ? date.day.slice(0, 7) : date.day}, and ${text} is printed`,
                undefined,
              ),
            ];
      }),
    ];
  },
});

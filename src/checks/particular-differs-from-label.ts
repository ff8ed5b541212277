import { gtinProblem, readShortDate } from '../records/gs1.ts';
import { printedElements, readElementString } from '../records/gs1-element-string.ts';
import type { Project } from '../records/project.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

type Output = RecordOf<'design-output'>;
type Kind = 'device identifier' | 'lot' | 'serial number' | 'date of manufacture' | 'use-by date';

/** A value of the record that a printed one may agree with. */
interface Stated {
  readonly kind: Kind;
  readonly value: string;
  readonly place: Draft['place'];
  readonly where: string;
}

/** A value that the words of a particular hold. */
interface Printed {
  readonly kind: Kind;
  readonly value: string;
  readonly offset: number;
}

const kinds: Readonly<Record<string, Kind>> = {
  '01': 'device identifier',
  '10': 'lot',
  '11': 'date of manufacture',
  '17': 'use-by date',
  '21': 'serial number',
};

const isDate = (kind: Kind): boolean => kind === 'date of manufacture' || kind === 'use-by date';

/** Six digits of an identifier as a day or a month; anything else as it is. */
const readable = (kind: Kind, value: string, year: number): string => {
  const date = isDate(kind) ? readShortDate(value, year) : undefined;
  return date === undefined ? value : date.isWholeMonth ? date.day.slice(0, 7) : date.day;
};

const statedBy = (output: Output, { fields, yaml }: Project, year: number): readonly Stated[] => {
  const printed = output.fields.identification;
  const own = (
    [
      ['lot', 'lot'],
      ['serial', 'serial number'],
      ['manufactured', 'date of manufacture'],
      ['use_by', 'use-by date'],
    ] as const
  ).flatMap(([field, kind]): readonly Stated[] => {
    const value = printed?.[field];
    return value === undefined
      ? []
      : [{ kind, value, place: placeOf(output, 'identification', field), where: 'the identification' }];
  });
  const coded = readElementString(output.fields.udi ?? '').elements.flatMap(
    ({ application, value }): readonly Stated[] => {
      const kind = kinds[application];
      return kind === undefined
        ? []
        : [{ kind, value: readable(kind, value, year), place: placeOf(output, 'udi'), where: 'the UDI' }];
    },
  );
  const level = (fields.device.identifiers ?? []).flatMap((each, index): readonly Stated[] =>
    printed?.level !== undefined && each.level === printed.level
      ? [
          {
            kind: 'device identifier',
            value: each.gtin.padStart(14, '0'),
            place: yaml.place(['device', 'identifiers', index, 'gtin']),
            where: `plinth.yaml for the level "${each.level}"`,
          },
        ]
      : [],
  );
  return [...own, ...coded, ...level];
};

/** A lot or serial number after its name: `LOT symbol with L004`. It holds a digit, which other words do not. */
const named = [
  { kind: 'lot' as const, head: /\b(?:lot|batch)\b/gi },
  { kind: 'serial number' as const, head: /\b(?:SN|serial)\b/gi },
];
const between = /^(?:[ :"]{1,3}(?:symbol|code|number|no\.?|with|is|of)(?=[ :"])){0,4}[ :"]{1,3}/i;
const token = /^[A-Za-z0-9][A-Za-z0-9./_-]{0,19}/;

const namedIn = (content: string): readonly Printed[] =>
  named.flatMap(({ kind, head }) =>
    [...content.matchAll(head)].flatMap((match): readonly Printed[] => {
      const after = match.index + match[0].length;
      const gap = between.exec(content.slice(after, after + 60))?.[0].length;
      if (gap === undefined) return [];
      const value = token.exec(content.slice(after + gap, after + gap + 20))?.[0].replace(/[./_-]$/, '');
      return value === undefined ? [] : [{ kind, value, offset: after + gap }];
    }),
  );

/** Clauses whose particular is one date. */
const dateClauses: Readonly<Record<string, Kind>> = {
  '23.2(i)': 'use-by date',
  '23.3(i)': 'use-by date',
  '23.2(j)': 'date of manufacture',
  '23.3(h)': 'date of manufacture',
};

const datesIn = (clause: string, content: string): readonly Printed[] => {
  const kind = Object.hasOwn(dateClauses, clause) ? dateClauses[clause] : undefined;
  return kind === undefined
    ? []
    : [...content.matchAll(/(?<![\d-])\d{4}-\d{2}(?:-\d{2})?(?![\d-])/g)].map((match) => ({
        kind,
        value: match[0],
        offset: match.index,
      }));
};

const agrees = ({ kind, value, offset }: Printed, stated: string, content: string): boolean => {
  if (isDate(kind)) {
    const length = Math.min(value.length, stated.length);
    return value.slice(0, length) === stated.slice(0, length);
  }
  // A stated value may hold a blank, at which the words were cut.
  return value === stated || (stated.length > value.length && content.startsWith(stated, offset));
};

export const particularDiffersFromLabel = defineCheck({
  code: 'particular-differs-from-label',
  level: 'error',
  title: 'The words of a particular hold another identifier, lot or date than their record',
  basis:
    'Regulation (EU) 2017/745 Annex I 23.2(g), 23.2(h), 23.2(i), 23.2(j), 23.3(h) and 23.3(i); GS1 General Specifications (application identifiers 01, 10, 11, 17 and 21)',
  explain:
    'The `content` of a particular holds an element string, a lot, a serial number or a date that agrees neither with the `identification` nor with the `udi` of the same record. Element strings are read wherever they stand with application identifiers in parentheses; lots and serial numbers where their name stands before them (`LOT symbol with L004`); dates in the form 2029-05-31 or 2029-05 in the particulars on dates, 23.2(i), 23.2(j), 23.3(h) and 23.3(i). Dates in other forms are not read.\n\nThe list of particulars goes into the label document and is compared with the artwork. A wrong digit in it is printed, and the device cannot be found in a recall, or is used after its date.\n\nCompare batch record, artwork and data of the printer, and correct whichever is wrong.',
  examines: 'particulars of records with an identification or a UDI',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-output')
      .filter(
        ({ status, fields }) =>
          status !== 'retired' && (fields.identification !== undefined || fields.udi !== undefined),
      )
      .flatMap((output) =>
        (output.fields.particulars ?? []).map((particular, index) => ({ output, particular, index })),
      ),
  judge: ({ output, particular: { clause, content }, index }, { project, asOf }): readonly Draft[] => {
    const year = Number(asOf.slice(0, 4));
    const stated = statedBy(output, project, year);
    const elements = printedElements(content).flatMap((element): readonly Printed[] => {
      const kind = kinds[element.application];
      return kind === undefined
        ? []
        : [{ kind, value: readable(kind, element.value, year), offset: element.offset }];
    });
    const words = namedIn(content).filter(({ value }) => /\d/.test(value));
    return [...elements, ...words, ...datesIn(clause, content)].flatMap((printed): readonly Draft[] => {
      const same = stated.filter(({ kind }) => kind === printed.kind);
      const [first] = same;
      if (!first) return [];
      // Where there is no UDI, gs1-check-digit-wrong tells a printed number that is wrong by itself.
      if (
        printed.kind === 'device identifier' &&
        output.fields.udi === undefined &&
        gtinProblem(printed.value, [14])
      )
        return [];
      // Two stated values that differ from each other are told by udi-differs-from-label.
      if (same.some(({ value }) => agrees(printed, value, content))) return [];
      return [
        {
          place: placeOf(output, 'particulars', index, 'content'),
          message: `${output.id}: the particular ${clause} has the ${printed.kind} ${printed.value}, and ${first.where} has ${first.value}`,
          hint: 'Correct whichever is wrong, here and on the artwork.',
          records: [output.id],
          related: same.map(({ place, where }) => ({ place, message: where })),
          data: { clause, printed: printed.value, stated: first.value },
        },
      ];
    });
  },
});

import type { Place } from '../findings/finding.ts';
import { dateIdentifiers, gtinProblem, isRealShortDate } from '../records/gs1.ts';
import { type IdentifierElement, printedElements, readElementString } from '../records/gs1-element-string.ts';
import { modelNumberProblem } from '../records/gs1-model-number.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

interface Subject {
  readonly owner: string;
  readonly records: readonly string[];
  readonly place: Place;
  readonly kind: 'gtin' | 'date' | 'model number';
  readonly value: string;
  /** Lengths of a GTIN, or the meaning of a date. */
  readonly lengths?: readonly number[];
  readonly meaning?: string;
}

/** A number or a date in an element of an identifier. */
const ofElement = (
  output: RecordOf<'design-output'>,
  place: Place,
  { application, value }: IdentifierElement,
): readonly Subject[] => {
  const base = { owner: output.id, records: [output.id], place, value };
  if (application === '01') return [{ ...base, kind: 'gtin', lengths: [14] }];
  const meaning = dateIdentifiers[application];
  return meaning ? [{ ...base, kind: 'date', meaning: `${meaning} (${application})` }] : [];
};

const subjectsOf = ({ project, graph }: CheckContext): readonly Subject[] => {
  const identifiers = (project.fields.device.identifiers ?? []).map(
    ({ level, gtin }, index): Subject => ({
      owner: `plinth.yaml, ${level}`,
      records: [],
      place: project.yaml.place(['device', 'identifiers', index, 'gtin']),
      kind: 'gtin',
      value: gtin,
    }),
  );
  const outputs = graph
    .recordsOf('design-output')
    .filter((output) => output.status !== 'retired' && output.fields.udi !== undefined);
  const elements = outputs.flatMap((output) =>
    readElementString(output.fields.udi ?? '').elements.flatMap((element) =>
      ofElement(output, placeOf(output, 'udi'), element),
    ),
  );
  // Where there is a UDI, particular-differs-from-label compares the words of the particulars with it.
  const printed = graph
    .recordsOf('design-output')
    .filter((output) => output.status !== 'retired' && output.fields.udi === undefined)
    .flatMap((output) =>
      (output.fields.particulars ?? []).flatMap(({ content }, index) =>
        printedElements(content).flatMap((element) =>
          ofElement(output, placeOf(output, 'particulars', index, 'content'), element),
        ),
      ),
    );
  const model = project.fields.device.basic_udi_di;
  return [
    ...identifiers,
    ...(model === undefined
      ? []
      : [
          {
            owner: 'plinth.yaml',
            records: [],
            place: project.yaml.place(['device', 'basic_udi_di']),
            kind: 'model number' as const,
            value: model,
          },
        ]),
    ...elements,
    ...printed,
  ];
};

const judge = ({ owner, records, place, kind, value, lengths, meaning }: Subject): readonly Draft[] => {
  if (kind === 'date')
    return isRealShortDate(value)
      ? []
      : [
          {
            place,
            message: `${owner} has the ${meaning} ${value}, which is no date in the form YYMMDD`,
            hint: 'Correct the date in the identifier and on the artwork.',
            records,
            data: { value },
          },
        ];
  if (kind === 'model number') {
    const problem = modelNumberProblem(value);
    return problem === undefined
      ? []
      : [
          {
            place,
            message: `${owner}: the Basic UDI-DI ${value} ${problem}`,
            hint: 'Compare it with the assignment of the issuing entity, and correct it wherever it is stated.',
            records,
            data: { value },
          },
        ];
  }
  const problem = gtinProblem(value, lengths);
  if (!problem) return [];
  return [
    {
      place,
      message:
        problem.kind === 'form'
          ? `${owner} has the GTIN "${value}", expected ${problem.expected}`
          : `${owner} has the GTIN ${value} with check digit ${problem.written}, computed ${problem.computed}`,
      hint: 'Correct the number here and wherever it is printed, or compute the check digit anew if another digit is wrong.',
      records,
      data:
        problem.kind === 'form'
          ? { gtin: value }
          : { gtin: value, written: problem.written, computed: problem.computed },
    },
  ];
};

export const gs1CheckDigitWrong = defineCheck({
  code: 'gs1-check-digit-wrong',
  level: 'error',
  title: 'A device identifier is not a valid GS1 number',
  basis:
    'GS1 General Specifications (check digit of GTINs, check characters of global model numbers, application identifiers 01, 11 and 17); Regulation (EU) 2017/745 Annex I 23.2(h)',
  explain:
    'The last digit of a GTIN follows from the others by a fixed rule, and the dates in a unique device identifier are six digits YYMMDD. The number does not obey the rule, has a wrong length, or the date does not exist. The last two characters of a Basic UDI-DI (a global model number) follow from the others too. Numbers in plinth.yaml and in the `udi` of labels are examined; where a record has no `udi`, those in the words of its particulars.\n\nA wrong identifier is refused by scanners and databases. If it is printed, the device cannot be traced to its patients in a recall.\n\nFind out which digit is wrong from the certificate of the number range, and correct it here and on the artwork.',
  examines: 'GTINs, dates and the Basic UDI-DI',
  subjects: subjectsOf,
  judge,
});

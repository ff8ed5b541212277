import type { Project } from '../records/project.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { isOfSymbolTable } from '../regulation/label-symbols.ts';
import { type Draft, defineCheck } from './check.ts';

type Output = RecordOf<'design-output'>;

interface Expected {
  readonly value: string;
  readonly where: string;
  readonly place: NonNullable<Draft['related']>[number]['place'];
}

/** Numbers of a range with their unit: `10 to 30 °C` in a wording of storage conditions. */
const rangeIn = (text: string, unit: RegExp): string | undefined => {
  const match = new RegExp(
    `(-?\\d{1,4}(?:[.,]\\d{1,2})?) ?(?:to|-|–) ?(-?\\d{1,4}(?:[.,]\\d{1,2})?) ?(?:${unit.source})`,
  ).exec(text);
  return match ? `${match[1]} to ${match[2]}` : undefined;
};

const degrees = /°C/;
const humidity = /%/;

const printed = (
  output: Output,
  field: 'lot' | 'serial' | 'manufactured' | 'use_by',
): Expected | undefined => {
  const value = output.fields.identification?.[field];
  return value === undefined
    ? undefined
    : { value, where: 'the identification', place: placeOf(output, 'identification', field) };
};

const stored = ({ fields, yaml }: Project, unit: RegExp): Expected | undefined => {
  const value = rangeIn(fields.phrases?.['storage'] ?? '', unit);
  return value === undefined
    ? undefined
    : { value, where: 'the wording "storage"', place: yaml.place(['phrases', 'storage']) };
};

/** What stands beside a symbol, in the form in which it is compared, and what it has to be. */
const expectations: Readonly<
  Record<
    string,
    {
      readonly of: (output: Output, project: Project) => Expected | undefined;
      readonly read: (beside: string) => string | undefined;
    }
  >
> = {
  '5.1.3': { of: (output) => printed(output, 'manufactured'), read: (beside) => beside },
  '5.1.4': { of: (output) => printed(output, 'use_by'), read: (beside) => beside },
  '5.1.5': { of: (output) => printed(output, 'lot'), read: (beside) => beside },
  '5.1.7': { of: (output) => printed(output, 'serial'), read: (beside) => beside },
  '5.3.7': { of: (_, project) => stored(project, degrees), read: (beside) => rangeIn(beside, degrees) },
  '5.3.8': { of: (_, project) => stored(project, humidity), read: (beside) => rangeIn(beside, humidity) },
};

export const labelSymbolValueDiffers = defineCheck({
  code: 'label-symbol-value-differs',
  level: 'error',
  title: 'A symbol on a label says something else than the text',
  basis: 'Regulation (EU) 2017/745 Annex I 23.2(g), 23.2(i), 23.2(k) and 23.3(h)',
  explain:
    'Beside a symbol stands a lot, a date or a range of storage that differs from what the same label prints (`identification`), or from the wording `storage` in plinth.yaml.\n\nOne of the two is read, and nobody knows which. A temperature in a symbol that is wider than what was tested lets devices be stored where they were never shown to last.\n\nCorrect the artwork and the record. Where the storage conditions have changed, change the wording in plinth.yaml and see what else differs.',
  examines: 'symbols with a lot, a date or a range',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired')
      .flatMap((output) =>
        (output.fields.symbols ?? []).flatMap((symbol, index) =>
          isOfSymbolTable(symbol.standard) &&
          symbol.beside !== undefined &&
          Object.hasOwn(expectations, symbol.symbol)
            ? [{ output, symbol: symbol.symbol, beside: symbol.beside, index }]
            : [],
        ),
      ),
  judge: ({ output, symbol, beside, index }, { project }): readonly Draft[] => {
    const expected = expectations[symbol]?.of(output, project);
    if (!expected || expectations[symbol]?.read(beside) === expected.value) return [];
    return [
      {
        place: placeOf(output, 'symbols', index, 'beside'),
        message: `${output.id}: "${beside}" stands beside the symbol ${symbol}, and ${expected.where} has ${expected.value}`,
        hint: 'Correct whichever is wrong, here and on the artwork.',
        records: [output.id],
        related: [{ place: expected.place, message: expected.where }],
        data: { beside, expected: expected.value },
      },
    ];
  },
});

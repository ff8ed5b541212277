import { placeOf } from '../records/record.ts';
import { isOfSymbolTable, labelSymbolSource, labelSymbols } from '../regulation/label-symbols.ts';
import { type Draft, defineCheck } from './check.ts';

export const labelSymbolUnknown = defineCheck({
  code: 'label-symbol-unknown',
  level: 'warning',
  title: 'A symbol has a number that Plinth does not know, or lacks the text that belongs to it',
  basis:
    'ISO 15223-1:2021 (reference numbers from public glossaries and from memory); Regulation (EU) 2017/745 Annex I 23.1(h)',
  explain:
    'A label lists a symbol under `symbols` by a number that is not in Plinth’s table of ISO 15223-1, or without the text that has to stand beside it, such as the date beside the date of manufacture.\n\nA symbol that users cannot look up tells them nothing, and the law asks for the symbols of harmonised standards or for an explanation in the instructions. The table was taken from public glossaries and from memory, so the standard itself decides.\n\nCompare the number with the standard. Name another standard under `standard`; then Plinth only lists it. Give the text under `beside`.',
  examines: 'symbols on labels and instructions',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired')
      .flatMap((output) => (output.fields.symbols ?? []).map((symbol, index) => ({ output, symbol, index }))),
  judge: ({ output, symbol, index }): readonly Draft[] => {
    if (!isOfSymbolTable(symbol.standard)) return [];
    const known = labelSymbols.get(symbol.symbol);
    const place = (field: string) => placeOf(output, 'symbols', index, field);
    if (!known)
      return [
        {
          place: place('symbol'),
          message: `${output.id} lists the symbol ${symbol.symbol}, which is not among those of ${labelSymbolSource.standard}:${labelSymbolSource.edition} that Plinth knows`,
          hint: 'Compare the number with the standard, or name the standard that it comes from.',
          records: [output.id],
        },
      ];
    return known.beside !== undefined && symbol.beside === undefined
      ? [
          {
            place: place('symbol'),
            message: `${output.id} lists the symbol ${symbol.symbol} (${known.title}) without its ${known.beside}`,
            hint: 'Say under "beside" what stands beside or in it.',
            records: [output.id],
          },
        ]
      : [];
  },
});

import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { isOfSymbolTable, labelSymbols, symbolContradictions } from '../regulation/label-symbols.ts';
import { type Draft, defineCheck } from './check.ts';

type Output = RecordOf<'design-output'>;

interface Carried {
  readonly output: Output;
  readonly index: number;
}

const singleUse = '5.4.2';
const notAgain = '5.2.6';
const sterilised = ['5.2.1', '5.2.2', '5.2.3', '5.2.4', '5.2.5', '5.2.10'];
const methods = sterilised.slice(1);

const carriedBy = (outputs: readonly Output[]): ReadonlyMap<string, Carried> =>
  new Map(
    outputs.flatMap((output) =>
      (output.fields.symbols ?? []).flatMap((symbol, index): readonly (readonly [string, Carried])[] =>
        isOfSymbolTable(symbol.standard) ? [[symbol.symbol, { output, index }]] : [],
      ),
    ),
  );

const named = (reference: string): string => `${reference} (${labelSymbols.get(reference)?.title ?? ''})`;

const pair = (
  carried: ReadonlyMap<string, Carried>,
  [a, b]: readonly [string, string],
  because: string,
): readonly Draft[] => {
  const [first, second] = [carried.get(a), carried.get(b)];
  if (!first || !second) return [];
  return [
    {
      place: placeOf(second.output, 'symbols', second.index, 'symbol'),
      message: `${second.output.id} carries the symbol ${named(b)} beside ${named(a)}${first.output.id === second.output.id ? '' : ` of ${first.output.id}`}: ${because}`,
      hint: 'Leave out the wrong one, here and on the artwork.',
      records: [second.output.id, ...(first.output.id === second.output.id ? [] : [first.output.id])],
      related: [
        { place: placeOf(first.output, 'symbols', first.index, 'symbol'), message: `the symbol ${a}` },
      ],
    },
  ];
};

/** Clauses that only hold for a device that is processed for another use. */
const reprocessing = ['23.4(n)', '23.4(o)'];

/** The instructions tell how to process a device for another use whose label says that it has a single one. */
const againstInstructions = (carried: ReadonlyMap<string, Carried>, graph: TraceGraph): readonly Draft[] =>
  [singleUse, notAgain].flatMap((reference): readonly Draft[] => {
    const symbol = carried.get(reference);
    if (!symbol) return [];
    return graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired')
      .flatMap((output) =>
        (output.fields.particulars ?? []).flatMap((particular, index): readonly Draft[] =>
          reprocessing.includes(particular.clause)
            ? [
                {
                  place: placeOf(output, 'particulars', index, 'clause'),
                  message: `${output.id} tells how the device is processed for another use (${particular.clause}), and ${symbol.output.id} carries the symbol ${named(reference)}`,
                  hint: 'Decide which of the two holds, and correct the other.',
                  records: [output.id, symbol.output.id],
                  related: [
                    {
                      place: placeOf(symbol.output, 'symbols', symbol.index, 'symbol'),
                      message: `the symbol ${reference}`,
                    },
                  ],
                },
              ]
            : [],
        ),
      );
  });

export const labelSymbolsContradict = defineCheck({
  code: 'label-symbols-contradict',
  level: 'warning',
  title: 'Symbols contradict each other or the instructions',
  basis:
    'ISO 15223-1:2021 (meanings from public glossaries and from memory); Regulation (EU) 2017/745 Annex I 23.2(n) and 23.4(n)',
  explain:
    'Symbols on one label cannot both be true: sterile and not sterile, two methods of sterilisation, a single and a double sterile barrier, a single use and several. Or a label says that the device is for a single use or must not be sterilised again, and instructions list the particular on processing for another use (23.4(n), 23.4(o)).\n\nThe user will believe one of the two. If it is the wrong one, a device that was made for one patient is used on the next.\n\nDecide which holds, and correct the artwork and the record.',
  examines: 'labels and instructions with symbols',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired' && (output.fields.symbols ?? []).length > 0),
  judge: (output, { graph }): readonly Draft[] => {
    const carried = carriedBy([output]);
    const used = methods.filter((method) => carried.has(method));
    return [
      ...symbolContradictions.flatMap(({ symbols, because }) => pair(carried, symbols, because)),
      ...used
        .slice(1)
        .flatMap((method) => pair(carried, [used[0] ?? '', method], 'a device is sterilised by one method')),
      ...againstInstructions(carried, graph),
    ];
  },
});

import { placeOf } from '../records/record.ts';
import { isOfSymbolTable, labelSymbols } from '../regulation/label-symbols.ts';
import { meantClause } from '../regulation/meant-clause.ts';
import { type Draft, defineCheck } from './check.ts';

export const labelSymbolWithoutParticular = defineCheck({
  code: 'label-symbol-without-particular',
  level: 'warning',
  title: 'A symbol and the list of particulars do not agree',
  basis:
    'Regulation (EU) 2017/745 Annex I 23.1(h), 23.2 and 23.3; that both lists agree is common practice, no source',
  explain:
    'A label says under `symbols` that a symbol answers a clause that its `particulars` do not have, or that is none of those that the symbol can tell. Or a particular says that it is told by a symbol, and no symbol of the record answers it, or fewer than its words name.\n\nThe list of particulars is what an inspection of the artwork goes by. A symbol that is only in one of the lists is either missing on the artwork or was never inspected.\n\nAdd the symbol or the particular, or correct the clause.',
  examines: 'labels and instructions with symbols',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired' && (output.fields.symbols ?? []).length > 0),
  judge: (output): readonly Draft[] => {
    const particulars = output.fields.particulars ?? [];
    const symbols = output.fields.symbols ?? [];
    const answered = new Set(symbols.flatMap(({ answers }) => answers));
    return [
      ...symbols.flatMap(({ symbol, standard, answers }, index) =>
        answers.flatMap((clause, at): readonly Draft[] => {
          const place = placeOf(output, 'symbols', index, 'answers', at);
          if (!particulars.some((particular) => meantClause(particular.clause, [clause]) !== undefined))
            return [
              {
                place,
                message: `${output.id}: the symbol ${symbol} answers ${clause}, which is not among the particulars`,
                hint: 'List the particular with what the artwork says, or correct the clause.',
                records: [output.id],
              },
            ];
          const known = isOfSymbolTable(standard) ? labelSymbols.get(symbol) : undefined;
          if (!known || known.answers.includes(clause)) return [];
          return [
            {
              place,
              message: `${output.id}: the symbol ${symbol} (${known.title}) is said to answer ${clause}, expected ${known.answers.length === 0 ? 'no clause' : known.answers.join(', ')}`,
              hint: 'Correct the number of the symbol or the clause.',
              records: [output.id],
            },
          ];
        }),
      ),
      ...particulars.flatMap(({ clause, content }, index): readonly Draft[] =>
        /\bsymbols?\b/i.test(content) && meantClause(clause, answered) === undefined
          ? [
              {
                place: placeOf(output, 'particulars', index, 'content'),
                message: `${output.id}: the particular ${clause} is told by a symbol, and no symbol of the record answers it`,
                hint: 'List the symbol under "symbols" with this clause.',
                records: [output.id],
              },
            ]
          : [],
      ),
      ...particulars.flatMap(({ clause, content }, index): readonly Draft[] => {
        const told = (content.match(/\bsymbol\b/gi) ?? []).length;
        const listed = symbols.filter(
          ({ answers }) => meantClause(clause, new Set(answers)) !== undefined,
        ).length;
        return listed > 0 && told > listed
          ? [
              {
                place: placeOf(output, 'particulars', index, 'content'),
                message: `${output.id}: the particular ${clause} is told by ${told} symbols, and ${listed} of the record ${listed === 1 ? 'answers' : 'answer'} it`,
                hint: 'List each symbol under "symbols" with this clause.',
                records: [output.id],
              },
            ]
          : [];
      }),
    ];
  },
});

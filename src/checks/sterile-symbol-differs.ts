import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { isOfSymbolTable, labelSymbols, sterileWords } from '../regulation/label-symbols.ts';
import { type Draft, defineCheck } from './check.ts';

type Output = RecordOf<'design-output'>;
type Property = 'method' | 'barrier';

/** A method or a barrier that something states, with where it stands. */
interface Statement {
  readonly value: string;
  /** In words: `the symbol 5.2.3 (Sterilised with ethylene oxide)`. */
  readonly says: string;
  readonly place: Draft['place'];
  readonly record: string;
}

const properties: readonly Property[] = ['method', 'barrier'];

/** Particulars on the sterile state, and that of the instructions which repeats those of the label. */
const sterileClauses = ['23.2(l)', '23.3(a)', '23.3(b)', '23.3(c)', '23.4(a)'];

/** Particular that is the method and nothing else: its letters may stand alone. */
const methodClause = '23.3(c)';

const bySymbol = (output: Output, property: Property): readonly Statement[] =>
  (output.fields.symbols ?? []).flatMap(({ symbol, standard }, index): readonly Statement[] => {
    const known = isOfSymbolTable(standard) ? labelSymbols.get(symbol) : undefined;
    const value = known?.[property];
    return value === undefined
      ? []
      : [
          {
            value,
            says: `the symbol ${symbol} (${known?.title ?? ''})`,
            place: placeOf(output, 'symbols', index, 'symbol'),
            record: output.id,
          },
        ];
  });

/** Values of the property that a text names by words or, with `letters`, by the letters of the symbol. */
const namedIn = (text: string, property: Property, clause?: string): readonly string[] =>
  sterileWords.flatMap(({ words, letters, ...row }) => {
    const value = row[property];
    if (value === undefined) return [];
    const inWords = words.some((word) => new RegExp(`\\b${word}\\b`, 'i').test(text));
    const inLetters =
      letters !== undefined &&
      clause !== undefined &&
      new RegExp(clause === methodClause ? `\\b${letters}\\b` : `\\bSTERILE[ -]${letters}\\b`).test(text);
    return inWords || inLetters ? [value] : [];
  });

const byWords = (output: Output, property: Property): readonly Statement[] =>
  (output.fields.particulars ?? []).flatMap(({ clause, content }, index) =>
    sterileClauses.includes(clause)
      ? namedIn(content, property, clause).map((value) => ({
          value,
          says: `the particular ${clause}`,
          place: placeOf(output, 'particulars', index, 'content'),
          record: output.id,
        }))
      : [],
  );

/** Processes whose title names a method of sterilisation. Steam also cleans, so its process has to say that it sterilises. */
const byProcess = (graph: TraceGraph, property: Property): readonly Statement[] =>
  property === 'barrier'
    ? []
    : graph
        .recordsOf('design-output')
        .filter(({ status, fields }) => status !== 'retired' && fields.kind === 'process')
        .flatMap((output) =>
          namedIn(output.title, property)
            .filter((value) => value !== 'steam or dry heat' || /sterili[sz]/i.test(output.title))
            .map((value) => ({
              value,
              says: `the process ${output.id} "${output.title}"`,
              place: placeOf(output, 'title'),
              record: output.id,
            })),
        );

const finding = (first: Statement, others: readonly Statement[]): Draft => ({
  place: first.place,
  message: `${first.record}: ${first.says} stands for ${first.value}, and ${others[0]?.says ?? ''} for ${others[0]?.value ?? ''}`,
  hint: 'Find out which is true, and correct the others, here and on the artwork.',
  records: [...new Set([first.record, ...others.map(({ record }) => record)])],
  related: others.map(({ place, says, value }) => ({ place, message: `${says}: ${value}` })),
  data: { stated: first.value, against: others[0]?.value ?? '' },
});

const agreesWithNone = ({ value }: Statement, others: readonly Statement[]): boolean =>
  others.length > 0 && others.every((other) => other.value !== value);

export const sterileSymbolDiffers = defineCheck({
  code: 'sterile-symbol-differs',
  level: 'warning',
  title: 'Symbols, words and process name different methods of sterilisation or barriers',
  basis:
    'Regulation (EU) 2017/745 Annex I 23.2(l), 23.3(a) and 23.3(c); ISO 15223-1:2021 (meanings of the symbols from public glossaries, letters and some rows from memory)',
  explain:
    'A symbol of a label stands for a method of sterilisation or a kind of sterile barrier, and the words of its particulars on the sterile state name another one (`STERILE EO`, `irradiation`, `single sterile barrier`); or a design output of the kind `process` has another method in its title. Where several processes are on file, one that agrees is enough. The words of 23.2(l), 23.3(a) to (c) and 23.4(a) are read.\n\nWho opens the pack goes by the symbol: a double barrier is opened in another way than a single one, and the method of sterilisation decides which residues are asked for. A wrong symbol stops the label at the next review.\n\nFind out what is true from the validation of the process and the design of the pack. Plinth knows some symbols from memory, so the standard decides what they mean.',
  examines: 'labels and instructions with sterile symbols or words',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired')
      .flatMap((output) =>
        properties.flatMap((property) => {
          const symbols = bySymbol(output, property);
          const words = byWords(output, property);
          return symbols.length + words.length > 0 ? [{ property, symbols, words }] : [];
        }),
      ),
  judge: ({ property, symbols, words }, { graph }): readonly Draft[] => {
    const processes = byProcess(graph, property);
    const wrong = symbols.filter((symbol) => agreesWithNone(symbol, processes));
    // One cause, one finding: what a wrong symbol contradicts is told with it.
    if (wrong.length > 0)
      return wrong.map((symbol) =>
        finding(symbol, [...processes, ...words.filter(({ value }) => value !== symbol.value)]),
      );
    const measure = symbols.length > 0 ? symbols : processes;
    const contrary = words.filter((each) => agreesWithNone(each, measure));
    return [...new Set(contrary.map(({ value }) => value))].flatMap((value): readonly Draft[] => {
      const [first, ...rest] = contrary.filter((each) => each.value === value);
      return first ? [finding(first, [...measure, ...rest])] : [];
    });
  },
});

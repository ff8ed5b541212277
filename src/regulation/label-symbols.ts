import file from './label-symbols.json' with { type: 'json' };

/** A symbol for labels, by the number that its standard gives it. The drawing is in the standard. */
export interface LabelSymbol {
  readonly reference: string;
  /** In our own words. */
  readonly title: string;
  /** Number in the register of graphical symbols. */
  readonly registration?: string;
  /** Clauses of Annex I of Regulation (EU) 2017/745 whose particulars it can tell. */
  readonly answers: readonly string[];
  /** Method of sterilisation that it stands for. */
  readonly method?: string;
  /** Kind of sterile barrier that it stands for. */
  readonly barrier?: string;
  /** What has to stand beside or in it. */
  readonly beside?: string;
  /** Key of `LabelSymbols.provenance`. */
  readonly provenance: string;
}

/** Two symbols that one label cannot carry together. */
export interface SymbolContradiction {
  readonly symbols: readonly [string, string];
  readonly because: string;
}

/** How texts name a method of sterilisation or a sterile barrier. */
export interface SterileWords {
  readonly method?: string;
  readonly barrier?: string;
  readonly words: readonly string[];
  /** Letters of the symbol, which stand after STERILE in a text. */
  readonly letters?: string;
}

interface SymbolFile {
  readonly meta: {
    readonly standard: string;
    readonly edition: string;
    readonly provenance: Readonly<Record<string, string>>;
  };
  readonly symbols: readonly LabelSymbol[];
  readonly words: readonly SterileWords[];
  readonly contradictions: readonly SymbolContradiction[];
}

const { meta, symbols, words, contradictions } = file as unknown as SymbolFile;

/** Designation and edition of the standard that the rows follow, and how they are known. */
export const labelSymbolSource = meta;

/** Symbols by reference number, in the order of the standard. */
export const labelSymbols: ReadonlyMap<string, LabelSymbol> = new Map(
  symbols.map((symbol) => [symbol.reference, symbol]),
);

export const symbolContradictions: readonly SymbolContradiction[] = contradictions;

export const sterileWords: readonly SterileWords[] = words;

/** Whether a symbol of a record is one of the standard that the table knows. */
export const isOfSymbolTable = (standard: string | undefined): boolean =>
  standard === undefined || standard === meta.standard;

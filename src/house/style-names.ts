/**
 * Names that Word's built-in styles have where a program wrote its own language into a file. Word itself writes the
 * English names whatever its language. Keys are the English names in lower case; a `#` stands for a level.
 *
 * Source: common practice, from memory; no published list was at hand.
 */
const otherNames: Readonly<Record<string, readonly string[]>> = {
  normal: [
    'standard',
    'standaard',
    'normale',
    'normál',
    'default',
    'default style',
    'default paragraph style',
  ],
  'heading #': [
    'überschrift #',
    'ueberschrift #',
    'titre #',
    'título #',
    'titolo #',
    'kop #',
    'rubrik #',
    'overskrift #',
    'otsikko #',
    'nagłówek #',
    'nadpis #',
    'encabezado #',
    'cabeçalho #',
  ],
  title: ['titel', 'titre', 'título', 'titolo', 'rubrik', 'tittel'],
  subtitle: [
    'untertitel',
    'sous-titre',
    'subtítulo',
    'sottotitolo',
    'ondertitel',
    'underrubrik',
    'undertitel',
  ],
  caption: [
    'beschriftung',
    'légende',
    'epígrafe',
    'descripción',
    'didascalia',
    'bijschrift',
    'legenda',
    'beskrivning',
    'billedtekst',
  ],
  header: [
    'kopfzeile',
    'en-tête',
    'encabezado',
    'intestazione',
    'koptekst',
    'cabeçalho',
    'sidhuvud',
    'sidehoved',
  ],
  footer: [
    'fußzeile',
    'pied de page',
    'pie de página',
    'piè di pagina',
    'voettekst',
    'rodapé',
    'sidfot',
    'sidefod',
  ],
  'toc #': [
    'verzeichnis #',
    'inhaltsverzeichnis #',
    'contents #',
    'tm #',
    'tdc #',
    'sommario #',
    'inhopg #',
    'índice #',
    'innehåll #',
  ],
  'table of figures': [
    'abbildungsverzeichnis',
    'table des illustrations',
    'tabla de ilustraciones',
    'indice delle figure',
    'lijst met afbeeldingen',
    'figure index 1',
    'illustration index 1',
  ],
  'footnote text': [
    'fußnotentext',
    'note de bas de page',
    'texto nota pie',
    'testo nota a piè di pagina',
    'voetnoottekst',
    'footnote',
  ],
  'footnote reference': [
    'fußnotenzeichen',
    'appel note de bas de p.',
    'ref. de nota al pie',
    'rimando nota a piè di pagina',
    'voetnootmarkering',
    'footnote characters',
  ],
  'list paragraph': [
    'listenabsatz',
    'paragraphe de liste',
    'párrafo de lista',
    'paragrafo elenco',
    'lijstalinea',
  ],
  quote: ['zitat', 'citation', 'cita', 'citazione', 'citaat', 'quotations'],
  hyperlink: ['lien hypertexte', 'hipervínculo', 'collegamento ipertestuale', 'internet link'],
  'normal table': ['normale tabelle', 'tableau normal', 'tabla normal', 'tabella normale', 'standaardtabel'],
};

/** A name as it is compared: small letters, single blanks. */
export const comparableName = (name: string): string =>
  name.normalize('NFC').toLowerCase().replace(/\s+/g, ' ').trim();

/** The other names by which a built-in style may go, in comparable form. */
export const otherNamesOf = (name: string): readonly string[] => {
  const comparable = comparableName(name);
  const level = /^(.*) ([1-9])$/.exec(comparable);
  const pattern = level ? `${level[1]} #` : comparable;
  const found = Object.hasOwn(otherNames, pattern) ? (otherNames[pattern] ?? []) : [];
  return found.map((each) => each.replace('#', level?.[2] ?? ''));
};

/** Whether Word has a style of this name by itself, so that a house style may be expected to have it. */
export const isBuiltIn = (name: string): boolean =>
  Object.hasOwn(otherNames, comparableName(name).replace(/[1-9]$/, '#'));

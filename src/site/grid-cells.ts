import { type Piece, type RowData, wordsOfCell } from './cell-words.ts';

/** Addresses within the copy only: a data file is content, and content is not trusted. */
const isWithin = (address: string): boolean =>
  /^(?:\.\.\/)*[A-Za-z0-9._~%-][A-Za-z0-9._~%/-]*(?:#[A-Za-z0-9._-]*)?$/.test(address);

const link = (address: string, words: string, look: string): Node => {
  if (!isWithin(address)) return document.createTextNode(words);
  const made = document.createElement('a');
  made.href = address;
  made.textContent = words;
  if (look !== '') made.className = look;
  return made;
};

const tones: ReadonlySet<string> = new Set(['good', 'bad', 'caution', 'quiet']);

const nodeOf = (piece: Piece): Node => {
  if (typeof piece === 'string') return document.createTextNode(piece);
  if (piece === 0) return document.createElement('br');
  const [kind, first, second] = piece;
  switch (kind) {
    case 'r':
      return link(second, first, 'record');
    case 'p':
      return link(second, first, '');
    case 's': {
      const made = document.createElement('span');
      made.className = /^state(?: state-[a-z]+)?$/.test(second) ? second : 'state';
      made.textContent = first;
      return made;
    }
    default: {
      const made = document.createElement(tones.has(first) ? 'span' : 'strong');
      if (tones.has(first)) made.className = `tone-${first}`;
      made.textContent = second;
      return made;
    }
  }
};

/** A row of the table, made of text nodes and links of our own: nothing in the data is read as HTML. */
export const rowOf = (data: RowData): HTMLTableRowElement => {
  const row = document.createElement('tr');
  for (const pieces of data) {
    const cell = document.createElement('td');
    const clip = document.createElement('div');
    clip.className = /^\d{4}-\d{2}-\d{2}$/.test(wordsOfCell(pieces)) ? 'clip whole' : 'clip';
    clip.title = wordsOfCell(pieces);
    clip.append(...pieces.map(nodeOf));
    cell.append(clip);
    row.append(cell);
  }
  return row;
};

import type { PageLink, SitePart } from '../document/site.ts';
import { text } from '../views/cells.ts';
import type { CompiledDocument } from '../views/compile-document.ts';
import { pageLink } from './site-context.ts';

/** A file that a document was written to. The copy has one of its own, so that it can be handed on by itself. */
export interface Deliverable {
  /** Name of the file: letters, digits, `.`, `_` and `-`. */
  readonly name: string;
  readonly size: number;
  readonly bytes: () => Uint8Array;
}

/** Files of each document; a copy that is made without them shows no links to any. */
export type Deliverables = ReadonlyMap<CompiledDocument, readonly Deliverable[]>;

interface WithDeliverables {
  readonly deliverables?: Deliverables;
}

/** Where the copy keeps the file. */
const pathOf = ({ name }: Deliverable): string => `files/${name}`;

const kinds: Readonly<Record<string, string>> = {
  docx: 'Word file',
  pdf: 'PDF file',
  html: 'HTML file',
  csv: 'CSV file',
};

const kindOf = ({ name }: Deliverable): string => {
  const ending = name.slice(name.lastIndexOf('.') + 1);
  return Object.hasOwn(kinds, ending) ? (kinds[ending] ?? ending) : ending;
};

/** The files of a document to take away; nothing where none was written. */
export const deliverableParts = (
  compiled: CompiledDocument,
  { deliverables }: WithDeliverables,
): readonly SitePart[] => {
  const own = deliverables?.get(compiled) ?? [];
  return own.length === 0
    ? []
    : [
        {
          kind: 'downloads',
          files: own.map((file) => ({
            path: pathOf(file),
            label: kindOf(file),
            detail: `${file.name}, ${Math.max(1, Math.round(file.size / 1000))} kB`,
          })),
        },
      ];
};

/** Links to the forms in which a document can be read elsewhere, for a cell of a list; its tables are left to its page. */
export const deliverableLinks = (
  compiled: CompiledDocument,
  { deliverables }: WithDeliverables,
): readonly PageLink[] =>
  (deliverables?.get(compiled) ?? [])
    .filter(({ name }) => !name.endsWith('.csv'))
    .map((file) => pageLink(pathOf(file), text(kindOf(file).replace(' file', ''))));

/** The files themselves, for the copy. */
export function* deliverableFiles({
  deliverables,
}: WithDeliverables): Generator<{ readonly path: string; readonly bytes: Uint8Array }> {
  for (const files of deliverables?.values() ?? [])
    for (const file of files) yield { path: pathOf(file), bytes: file.bytes() };
}

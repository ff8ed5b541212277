import type { MarkdownCompiler } from '../document/markdown.ts';
import type { Block, Inline } from '../document/model.ts';
import { forEachBlock } from '../document/numbering.ts';
import type { PageLink, SiteInline, StateMark } from '../document/site.ts';
import type { Finding } from '../findings/finding.ts';
import type { UnreadRecord } from '../graph/unread-records.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';
import { type DataTable, readTable } from '../records/table.ts';
import {
  bodyCompiler,
  type CompiledDocument,
  type DocumentInputs,
  foundInAwaiting,
} from '../views/compile-document.ts';
import type { ViewContext } from '../views/view.ts';
import type { Deliverables } from './deliverables.ts';
import { type RawFile, rawFiles } from './raw-files.ts';
import { pathsFor } from './site-paths.ts';

/** All that the pages of the browsable copy are made from. */
export interface SiteInputs extends DocumentInputs {
  readonly compile: MarkdownCompiler;
  readonly documents: readonly CompiledDocument[];
  /** Records and files that could not be read: they are on no page, and the counts are without them. */
  readonly unread: readonly UnreadRecord[];
  /** Files that the documents were written to, where they were. */
  readonly deliverables?: Deliverables;
}

/** What every page may draw from, worked out once. */
export interface SiteContext extends SiteInputs {
  readonly view: ViewContext;
  readonly recordPaths: ReadonlyMap<string, string>;
  /** Pages of record types by the name of the type. */
  readonly typePaths: ReadonlyMap<string, string>;
  readonly documentPaths: ReadonlyMap<CompiledDocument, string>;
  readonly raw: ReadonlyMap<string, RawFile>;
  /** A raw-data file as a table; undefined where it is none. */
  readonly tableOf: (file: string) => DataTable | undefined;
  /** Records of each type, retired ones too, in order of id. */
  readonly byType: ReadonlyMap<string, readonly TechnicalRecord[]>;
  /** What is found in documents that wait for the first record to be written for. */
  readonly awaiting: readonly Finding[];
  readonly findingsOf: (id: string) => readonly Finding[];
  /** Documents that show a record. */
  readonly shownIn: (id: string) => readonly CompiledDocument[];
  /** A record's body: what stands before its first heading, and the rest. */
  readonly bodyOf: (record: TechnicalRecord) => {
    readonly statement: readonly Block[];
    readonly sections: readonly Block[];
    readonly footnotes: readonly (readonly Block[])[];
  };
}

/** Stands in for a document where a record's own page is drawn. */
const noDocument = (inputs: SiteInputs): RecordOf<'document'> =>
  ({
    id: '',
    type: 'document',
    title: '',
    status: '',
    file: '',
    sound: false,
    fields: {},
    links: [],
    body: '',
    bodyLine: 1,
    yaml: inputs.project.yaml,
  }) as unknown as RecordOf<'document'>;

const grouped = <K, V>(pairs: Iterable<readonly [K, V]>): ReadonlyMap<K, readonly V[]> => {
  const map = new Map<K, V[]>();
  for (const [key, value] of pairs) {
    const known = map.get(key);
    if (known) known.push(value);
    else map.set(key, [value]);
  }
  return map;
};

const referencesIn = (blocks: readonly Block[]): ReadonlySet<string> => {
  const ids = new Set<string>();
  const add = (children: readonly Inline[]): void => {
    for (const child of children)
      if (child.kind === 'record-reference') ids.add(child.id);
      else if ('children' in child && child.children) add(child.children);
  };
  forEachBlock(blocks, (block) => {
    if ('recordId' in block && block.recordId !== undefined) ids.add(block.recordId);
    if (block.kind === 'paragraph' || block.kind === 'heading') add(block.children);
    else if (block.kind === 'table')
      for (const row of block.rows) for (const cell of row.cells) add(cell.children);
    else if (block.kind === 'particulars') for (const entry of block.entries) add(entry.value);
  });
  return ids;
};

export const siteContext = (inputs: SiteInputs): SiteContext => {
  const { graph, compile, documents } = inputs;
  const compiler = bodyCompiler(noDocument(inputs), inputs, compile);
  const findings = grouped(
    inputs.findings.flatMap((finding) => [...new Set(finding.records)].map((id) => [id, finding] as const)),
  );
  const shown = grouped(
    documents.flatMap((document) =>
      [...referencesIn(document.document.blocks)].map((id) => [id, document] as const),
    ),
  );
  const documentPaths = pathsFor(
    documents.map(({ document }) => document.id),
    (safe) => `documents/${safe}.html`,
  );
  return {
    ...inputs,
    awaiting: foundInAwaiting(inputs, compile),
    view: compiler.context(1),
    recordPaths: pathsFor(graph.records.keys(), (safe) => `records/${safe}.html`),
    typePaths: pathsFor(graph.types.keys(), (safe) => `types/${safe}.html`),
    documentPaths: new Map(
      documents.map((compiled) => [compiled, documentPaths.get(compiled.document.id) ?? '']),
    ),
    raw: rawFiles(inputs),
    tableOf: (file) => {
      const source = inputs.files.get(file);
      const outcome = source && readTable(file, source.bytes);
      return outcome && 'table' in outcome ? outcome.table : undefined;
    },
    byType: grouped([...graph.records.values()].map((record) => [record.type, record] as const)),
    findingsOf: (id) => findings.get(id) ?? [],
    shownIn: (id) => shown.get(id) ?? [],
    bodyOf: (record) => {
      const { blocks, footnotes } = compiler.compileBody(record, { topHeadingLevel: 2 });
      const first = blocks.findIndex((block) => block.kind === 'heading');
      return first === -1
        ? { statement: blocks, sections: [], footnotes }
        : { statement: blocks.slice(0, first), sections: blocks.slice(first), footnotes };
    },
  };
};

/** A link to another page. */
export const pageLink = (path: string, ...children: readonly Inline[]): PageLink => ({
  kind: 'page-link',
  path,
  children,
});

/** Path of a page with one of its tables filtered: for columns, by their keys, the values that are shown. */
export const filteredTable = (
  path: string,
  table: string,
  chosen: Readonly<Record<string, readonly string[]>>,
): string =>
  `${path}#?${new URLSearchParams(
    Object.entries(chosen).flatMap(([column, values]) =>
      values.map((value): [string, string] => [`${table}.${column}`, value]),
    ),
  ).toString()}`;

/** Where a thing stands, as a word with its shape. */
export const mark = (state: string): StateMark => ({ kind: 'state-mark', state });

/** Findings of the records and of the documents. */
export const allFindings = ({
  findings,
  documents,
  awaiting,
}: Pick<SiteContext, 'findings' | 'documents' | 'awaiting'>): readonly Finding[] => [
  ...findings,
  ...documents.flatMap((compiled) => compiled.findings),
  ...awaiting,
];

/** Where a record's approvals stand, in one word or two. */
export const approvalWord = (id: string, { approvals }: Pick<SiteContext, 'approvals'>): string => {
  const known = approvals.of(id);
  if (!known || known.states.length === 0)
    return known && known.missingRoles.length > 0 ? 'to be signed' : 'not approved';
  if (known.inForce) return 'in force';
  return known.changed.length > 0 ? 'lapsed' : 'to be signed';
};

/** A record with its title, as a cell. */
export const idAndTitle = (record: TechnicalRecord): readonly SiteInline[] => [
  { kind: 'record-reference', id: record.id },
  { kind: 'text', value: ` ${record.title}` },
];

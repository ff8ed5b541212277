import type { GridColumn, SitePage } from '../document/site.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { RecordType } from '../records/schema-set.ts';
import { orNothing, text } from '../views/cells.ts';
import { fieldValue } from '../views/field-values.ts';
import { approvalWord, mark, pageLink, type SiteContext } from './site-context.ts';

/** Fields that every list shows elsewhere, or that are too long for one. */
const notListed = new Set(['id', 'type', 'title', 'status', 'approvals', 'states']);

/** Fields that a list offers; readers choose which of them they see. */
const mostFields = 8;

/** Fields of this width or less are shown from the start, until the list has enough columns. */
const shownFields = 2;

const isShort = (record: TechnicalRecord, name: string): boolean => {
  const value = record.fields[name];
  if (value === undefined) return true;
  if (Array.isArray(value))
    return value.length <= 6 && value.every((item) => typeof item === 'string' && item.length <= 40);
  return (typeof value === 'string' && value.length <= 60) || typeof value === 'number';
};

/** Name of the table that lists the records of a type. */
export const typeTable = (type: string, { typePaths }: Pick<SiteContext, 'typePaths'>): string =>
  `type-${typePaths.get(type)?.split('/').at(-1)?.replace('.html', '') ?? type}`;

/** Key of the column of that table that tells how a record stands, where the type has a standing. */
export const standsColumn = 'stands';

/** The list of all records of one type. */
export const typePage = (
  {
    type,
    plural,
    title,
    description,
    schema,
    fields,
  }: Pick<RecordType, 'type' | 'plural' | 'title' | 'description' | 'schema' | 'fields'>,
  context: SiteContext,
): SitePage => {
  const { graph, standing, evidence } = context;
  const records = context.byType.get(type) ?? [];
  const path = context.typePaths.get(type) ?? '';
  const used = fields.filter(
    (name) => !notListed.has(name) && records.some((record) => record.fields[name] !== undefined),
  );
  const short = used.filter((name) => records.every((record) => isShort(record, name)));
  const listed = [...short, ...used.filter((name) => !short.includes(name) && name === 'limits')].slice(
    0,
    mostFields,
  );
  const early = new Set([
    ...listed.filter((name) => name === 'limits'),
    ...listed.filter((name) => name !== 'limits').slice(0, shownFields),
  ]);
  const hasState = records.some((record) => standing.has(record.id) || evidence.has(record.id));
  const columns: readonly GridColumn[] = [
    { title, width: 28 },
    ...(hasState ? [{ title: 'Stands', key: standsColumn, width: 11, isChoice: true } as const] : []),
    ...listed.map(
      (name): GridColumn => ({
        title: schema.properties?.[name]?.title ?? name,
        key: name,
        width: name === 'limits' ? 38 : 14,
        ...(schema.properties?.[name]?.enum ? { isChoice: true as const } : {}),
        ...(early.has(name) ? {} : { isHidden: true as const }),
      }),
    ),
    { title: 'Status', width: 11, isChoice: true },
    { title: 'Approval', width: 12, isChoice: true },
    { title: 'File', width: 20, isHidden: true },
  ];
  return {
    path,
    title: plural,
    under: path,
    above: [pageLink('records.html', text('Records'))],
    parts: [
      ...(description === ''
        ? []
        : [{ kind: 'words', look: 'lead', children: [text(description)] } as const]),
      {
        kind: 'grid',
        id: typeTable(type, context),
        caption: `${plural}, ${records.length}`,
        whenEmpty: `There are no ${plural.toLowerCase()} yet.`,
        columns,
        rows: records.map((record) => {
          const state = standing.get(record.id)?.state ?? evidence.get(record.id)?.verdict;
          return {
            cells: [
              [{ kind: 'record-reference', id: record.id } as const, text(` ${record.title}`)],
              ...(hasState ? [state === undefined ? [text('–')] : [mark(state)]] : []),
              ...listed.map((name) => orNothing(fieldValue(record, graph, name), '–')),
              [mark(record.status)],
              [mark(approvalWord(record.id, context))],
              [text(record.file)],
            ],
          };
        }),
      },
    ],
  };
};

/** All types with how many records there are of each. */
export const typesPage = (context: SiteContext): SitePage => ({
  path: 'records.html',
  title: 'Records',
  under: 'records.html',
  parts: [
    {
      kind: 'words',
      look: 'lead',
      children: [text(`${context.graph.records.size} records, by kind. A record is one file with an id.`)],
    },
    {
      kind: 'grid',
      id: 'types',
      caption: 'Kinds of records',
      isPlain: true,
      whenEmpty: 'There are no records yet.',
      columns: [
        { title: 'Kind', width: 26 },
        { title: 'Records', width: 10, align: 'right' },
        { title: 'What it is', width: 64 },
      ],
      rows: [...context.graph.types.values()]
        .filter((type) => context.byType.has(type.type))
        .map((type) => ({
          cells: [
            [pageLink(context.typePaths.get(type.type) ?? '', text(type.plural))],
            [text(String(context.byType.get(type.type)?.length ?? 0))],
            [text(type.description)],
          ],
        })),
    },
  ],
});

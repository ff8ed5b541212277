import type { GridColumn, SitePage, SitePart } from '../document/site.ts';
import { sha256Hex } from '../graph/digest.ts';
import { text } from '../views/cells.ts';
import type { RawFile } from './raw-files.ts';
import { idAndTitle, mark, type SiteContext } from './site-context.ts';

/** Rows beyond this number are left to the file itself. */
const mostRows = 20_000;

/** For each unit that a record leaves out of its evaluation, by which record. */
const exclusionsOf = (raw: RawFile, { evidence }: SiteContext): ReadonlyMap<string, string> =>
  new Map(
    raw.records.flatMap((record) =>
      (evidence.get(record.id)?.excludedUnits ?? []).map((unit) => [unit, record.id] as const),
    ),
  );

const unitColumn = (raw: RawFile): string | undefined =>
  raw.records
    .map((record) => (record.fields['data'] as { readonly unit_id?: unknown } | undefined)?.unit_id)
    .find((name): name is string => typeof name === 'string');

const tableParts = (raw: RawFile, context: SiteContext): readonly SitePart[] => {
  const table = context.tableOf(raw.file);
  if (!table)
    return [
      {
        kind: 'site-notice',
        tone: 'caution',
        lines: [[text('The file cannot be read as a table: see the findings. It can still be downloaded.')]],
      },
    ];
  const excluded = exclusionsOf(raw, context);
  const units = table.columns.find((column) => column.name === unitColumn(raw));
  const width = 100 / (table.columns.length + 1);
  const columns: readonly GridColumn[] = [
    { title: 'Line', width: 6, align: 'right' },
    ...table.columns.map(({ name, unit, cells }): GridColumn => {
      const isNumber =
        cells.length > 0 && cells.slice(0, 50).every(({ text: value }) => /^[<>]?[-+.\d]/.test(value));
      return {
        title: unit === undefined ? name : `${name} [${unit}]`,
        width,
        ...(isNumber ? { align: 'right' as const } : {}),
      };
    }),
    ...(excluded.size > 0 ? [{ title: 'Excluded', width: 14, isChoice: true } as const] : []),
  ];
  const shown = Math.min(mostRows, table.rows);
  return [
    ...(shown < table.rows
      ? [
          {
            kind: 'site-notice',
            tone: 'caution',
            lines: [[text(`The first ${shown} of ${table.rows} rows are shown. The file has them all.`)]],
          } as const,
        ]
      : []),
    {
      kind: 'grid',
      id: `raw-${sha256Hex(new TextEncoder().encode(raw.file)).slice(0, 12)}`,
      caption: `${table.rows} row${table.rows === 1 ? '' : 's'} as they stand in the file`,
      whenEmpty: 'The file has a heading and no rows.',
      columns,
      rows: Array.from({ length: shown }, (_, row) => {
        const by = units && excluded.get(units.cells[row]?.text ?? '');
        return {
          cells: [
            [text(String(table.columns[0]?.cells[row]?.line ?? row + 2))],
            ...table.columns.map((column) => [text(column.cells[row]?.text ?? '')]),
            ...(excluded.size > 0
              ? [
                  by === undefined
                    ? [text('–')]
                    : [text('by '), { kind: 'record-reference', id: by } as const],
                ]
              : []),
          ],
        };
      }),
    },
  ];
};

/** A raw-data file as a table, with the file itself, byte for byte. */
export const rawDataPage = (raw: RawFile, context: SiteContext): SitePage => {
  const bytes = context.files.get(raw.file)?.bytes ?? new Uint8Array();
  const digest = sha256Hex(bytes);
  const name = raw.file.split('/').at(-1) ?? raw.file;
  return {
    path: raw.pagePath,
    title: name,
    above: [text('Raw data')],
    under: 'raw.html',
    citation: `${raw.file}, SHA-256 ${digest}, as of ${context.asOf}`,
    parts: [
      {
        kind: 'facts',
        entries: [
          { name: 'File', value: [text(raw.file, { code: true })] },
          { name: 'SHA-256', value: [text(digest, { code: true })] },
          ...raw.records.map((record) => {
            const verdict = context.evidence.get(record.id)?.verdict;
            return {
              name: context.graph.types.get(record.type)?.title ?? record.type,
              value: [...idAndTitle(record), ...(verdict === undefined ? [] : [text('  '), mark(verdict)])],
            };
          }),
        ],
      },
      {
        kind: 'downloads',
        files: [
          { path: raw.filePath, label: 'Download the file', detail: `${bytes.length} bytes, unchanged` },
        ],
      },
      ...tableParts(raw, context),
    ],
  };
};

/** All raw-data files, with the records that they bear. */
export const rawDataListPage = (context: SiteContext): SitePage => ({
  path: 'raw.html',
  title: 'Raw data',
  under: 'raw.html',
  parts: [
    {
      kind: 'words',
      look: 'lead',
      children: [
        text('The measurements themselves. Every verdict is computed from these files; nobody types one.'),
      ],
    },
    {
      kind: 'grid',
      id: 'raw-files',
      caption: 'Raw-data files',
      whenEmpty: 'No record names a raw-data file yet.',
      columns: [
        { title: 'File', width: 26 },
        { title: 'Rows', width: 8, align: 'right' },
        { title: 'Record', width: 36 },
        { title: 'Verdict', width: 12, isChoice: true },
        { title: 'SHA-256', width: 22, isHidden: true },
      ],
      rows: [...context.raw.values()].map((raw) => {
        const verdicts = [
          ...new Set(raw.records.flatMap((record) => context.evidence.get(record.id)?.verdict ?? [])),
        ];
        return {
          cells: [
            [pageLinkTo(raw)],
            [text(String(context.tableOf(raw.file)?.rows ?? '–'))],
            raw.records.flatMap((record, index) => [
              ...(index === 0 ? [] : [text(', ')]),
              ...idAndTitle(record),
            ]),
            verdicts.length === 0
              ? [text('–')]
              : verdicts.flatMap((verdict, index) => [...(index === 0 ? [] : [text(', ')]), mark(verdict)]),
            [text(sha256Hex(context.files.get(raw.file)?.bytes ?? new Uint8Array()), { code: true })],
          ],
        };
      }),
    },
  ],
});

const pageLinkTo = (raw: RawFile) => ({
  kind: 'page-link' as const,
  path: raw.pagePath,
  children: [text(raw.file)],
});

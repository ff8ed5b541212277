import type { Grid, Section, SitePage } from '../document/site.ts';
import { applicabilityWords, type LegalRow, legalRows } from '../graph/legal-rows.ts';
import { compareIds } from '../graph/trace-graph.ts';
import { isFromMemory } from '../regulation/clause-tables.ts';
import { text } from '../views/cells.ts';
import { idList } from '../views/risk-words.ts';
import { evidenceState, evidenceWords, standardWords } from './clause-parts.ts';
import { approvalWord, idAndTitle, mark, type SiteContext } from './site-context.ts';

const requirementSections = (context: SiteContext): readonly Section[] => {
  const { graph, project, clauseTables } = context;
  const answered = legalRows(graph);
  const keys = [
    ...new Set([
      ...(project.fields.clause_tables ?? []).map(({ table }) => table),
      ...answered.map(({ table }) => table),
    ]),
  ];
  return keys.map((key, index): Section => {
    const table = clauseTables.inUse(key);
    const order = new Map(table?.rows.map((row, at) => [row.clause, at]));
    const place = (row: LegalRow): number => order.get(row.clause) ?? order.size;
    const own = answered
      .filter((row) => row.table === key)
      .sort((a, b) => place(a) - place(b) || compareIds(a.clause, b.clause));
    const edition =
      project.fields.clause_tables?.find((each) => each.table === key)?.edition ?? table?.edition;
    const grid: Grid = {
      kind: 'grid',
      id: `clauses-${index + 1}`,
      caption: `Clauses answered${edition === undefined ? '' : `, edition ${edition}`}`,
      whenEmpty: 'No clause of this table is answered yet.',
      columns: [
        { title: 'Clause', width: 9 },
        { title: 'What it asks for', width: 24 },
        { title: 'Applies', width: 9, isChoice: true },
        { title: 'Solution or reason', width: 32 },
        { title: 'Method', width: 12, isChoice: true, isHidden: true },
        { title: 'Standards', width: 14, isSpare: true },
        { title: 'Evidence', width: 18 },
        { title: 'Evidence stands', width: 11, isChoice: true },
        { title: 'Record', width: 10, isSpare: true },
        { title: 'Approval', width: 11, isChoice: true, isHidden: true },
      ],
      rows: own.map((row) => {
        const state = evidenceState(row, context);
        const isHead = row.path.length === 0;
        return {
          ...(isHead ? { anchor: row.record.id } : {}),
          cells: [
            [isHead ? text(row.clause, { bold: true }) : text(row.clause)],
            [text(table?.byClause.get(row.clause)?.title ?? (isHead ? row.record.title : '–'))],
            [text(applicabilityWords(row.applicable))],
            [text(row.solution ?? row.reason ?? '–')],
            [text(row.method.join(', ') || '–')],
            standardWords(row),
            evidenceWords(row),
            [state === undefined ? text('–') : mark(state)],
            [{ kind: 'record-reference', id: row.record.id }],
            [mark(approvalWord(row.record.id, context))],
          ],
        };
      }),
    };
    return {
      kind: 'section',
      id: `table-${index + 1}`,
      title: table?.title ?? key,
      parts: [
        ...(table?.rows.some(isFromMemory)
          ? [
              {
                kind: 'words',
                look: 'quiet',
                children: [
                  text(
                    'What a clause asks for is told in our own words. Some rows of this table were not compared with the text in force: read the text itself.',
                  ),
                ],
              } as const,
            ]
          : []),
        grid,
      ],
    };
  });
};

const standardSection = (context: SiteContext): readonly Section[] => {
  const standards = context.graph.recordsOf('standard').filter((each) => each.status !== 'retired');
  if (standards.length === 0) return [];
  return [
    {
      kind: 'section',
      id: 'standards',
      title: 'Standards applied',
      parts: [
        {
          kind: 'grid',
          id: 'standards',
          caption: 'Standards',
          whenEmpty: '',
          columns: [
            { title: 'Designation', width: 18 },
            { title: 'Edition', width: 10 },
            { title: 'Standard', width: 30 },
            { title: 'Extent', width: 10, isChoice: true },
            { title: 'Clauses', width: 22 },
            { title: 'Recognition', width: 18, isHidden: true },
            { title: 'Approval', width: 11, isChoice: true },
          ],
          rows: standards.map((standard) => ({
            cells: [
              [text(standard.fields.designation)],
              [text(standard.fields.edition)],
              idAndTitle(standard),
              [text(standard.fields.extent ?? '–')],
              [text(standard.fields.clauses ?? '–')],
              [text(standard.fields.recognition ?? '–')],
              [mark(approvalWord(standard.id, context))],
            ],
          })),
        },
      ],
    },
  ];
};

const materialSection = (context: SiteContext): readonly Section[] => {
  const materials = context.graph.recordsOf('material').filter((each) => each.status !== 'retired');
  if (materials.length === 0) return [];
  return [
    {
      kind: 'section',
      id: 'materials',
      title: 'Materials',
      parts: [
        {
          kind: 'grid',
          id: 'materials',
          caption: 'Materials, their contact and what shows them fit',
          whenEmpty: '',
          columns: [
            { title: 'Material', width: 26 },
            { title: 'Part', width: 14 },
            { title: 'Contact', width: 22, isChoice: true },
            { title: 'Duration', width: 16, isChoice: true },
            { title: 'Evidence', width: 18 },
            { title: 'Stands', width: 11, isChoice: true },
          ],
          rows: materials.map((material) => {
            const state = context.standing.get(material.id)?.state;
            return {
              cells: [
                idAndTitle(material),
                idList(
                  context.graph.linksFrom(material.id, 'part').map((link) => link.to),
                  '–',
                ),
                [text(String(material.fields['contact'] ?? '–'))],
                [text(String(material.fields['duration'] ?? '–'))],
                idList(
                  context.graph.linksFrom(material.id, 'evidence').map((link) => link.to),
                  '–',
                ),
                [state === undefined ? mark(material.status) : mark(state)],
              ],
            };
          }),
        },
      ],
    },
  ];
};

/** What law and standards ask for, and where the file answers. */
export const conformityPage = (context: SiteContext): SitePage => ({
  path: 'conformity.html',
  title: 'Law and standards',
  under: 'conformity.html',
  parts: [
    {
      kind: 'words',
      look: 'lead',
      children: [
        text(
          'Which requirements the maker says apply, how they are met, and how far the evidence named for them is shown. It is not a statement of conformity.',
        ),
      ],
    },
    ...requirementSections(context),
    ...standardSection(context),
    ...materialSection(context),
  ],
});

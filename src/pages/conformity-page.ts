import type { Grid, Section, SitePage } from '../document/site.ts';
import { clauseTable } from '../regulation/clause-tables.ts';
import { text } from '../views/cells.ts';
import { idList } from '../views/risk-words.ts';
import { approvalWord, idAndTitle, mark, type SiteContext } from './site-context.ts';

const requirementSections = (context: SiteContext): readonly Section[] => {
  const { graph, standing, project } = context;
  const requirements = graph.recordsOf('legal-requirement').filter((each) => each.status !== 'retired');
  const keys = [
    ...new Set([
      ...(project.fields.clause_tables ?? []).map(({ table }) => table),
      ...requirements.map(({ fields }) => fields.table),
    ]),
  ];
  return keys.map((key, index): Section => {
    const table = clauseTable(key);
    const order = new Map(table?.rows.map((row, at) => [row.clause, at]));
    const own = requirements
      .filter(({ fields }) => fields.table === key)
      .sort((a, b) => (order.get(a.fields.clause) ?? 1e9) - (order.get(b.fields.clause) ?? 1e9));
    const edition = project.fields.clause_tables?.find((each) => each.table === key)?.edition;
    const grid: Grid = {
      kind: 'grid',
      id: `clauses-${index + 1}`,
      caption: `${table?.title ?? key}${edition === undefined ? '' : `, edition ${edition}`}`,
      whenEmpty: 'No requirement of this table is recorded yet.',
      columns: [
        { title: 'Clause', width: 9 },
        { title: 'Requirement', width: 26 },
        { title: 'Applies', width: 9, isChoice: true },
        { title: 'Solution or reason', width: 32 },
        { title: 'Evidence', width: 18 },
        { title: 'Stands', width: 11, isChoice: true },
        { title: 'Approval', width: 11, isChoice: true, isHidden: true },
      ],
      rows: own.map((requirement) => {
        const { clause, applicable, solution, reason, evidence } = requirement.fields;
        const state = standing.get(requirement.id)?.state;
        return {
          anchor: requirement.id,
          cells: [
            [text(clause)],
            [{ kind: 'record-reference', id: requirement.id }, text(` ${requirement.title}`)],
            [text(applicable ? 'yes' : 'no')],
            [text(solution ?? reason ?? '–')],
            idList(evidence ?? [], '–'),
            [applicable && state !== undefined ? mark(state) : text('–')],
            [mark(approvalWord(requirement.id, context))],
          ],
        };
      }),
    };
    return { kind: 'section', id: `table-${index + 1}`, title: table?.title ?? key, parts: [grid] };
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

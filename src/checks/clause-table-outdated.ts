import { compareEditions } from '../regulation/compare-editions.ts';
import { type CheckContext, defineCheck } from './check.ts';

const later = ({ clauseTables }: CheckContext, key: string) => {
  const inUse = clauseTables.inUse(key);
  const newest = clauseTables.editionsOf(key).at(-1);
  return inUse && newest && newest.edition > inUse.edition ? { inUse, newest } : undefined;
};

export const clauseTableOutdated = defineCheck({
  code: 'clause-table-outdated',
  level: 'warning',
  title: 'A newer edition of a clause table is at hand than the one in use',
  basis: 'ISO 13485:2016 4.2.4 (control of external documents)',
  explain:
    'The folder `clause-tables` holds an edition of the table that is newer than the one that plinth.yaml names. Whether the file has to follow it, and from which day, is for people to find out: law often leaves time.\n\nA clause that was added is a requirement that nobody has answered; one that changed may ask for more than the evidence shows.\n\nRun `plinth clauses KEY` to see what was added, what is gone and which records are affected. Then answer what is new and name the new edition in plinth.yaml.',
  examines: 'clause tables in use',
  subjects: ({ project }) =>
    (project.fields.clause_tables ?? []).map(({ table, edition }, index) => ({ table, edition, index })),
  judge: ({ table, index }, context) => {
    const found = later(context, table);
    if (!found) return [];
    const { inUse, newest } = found;
    const { added, gone, changed } = compareEditions(inUse, newest);
    return [
      {
        place: context.project.yaml.place(['clause_tables', index, 'edition']),
        message: `the file works to ${table} of ${inUse.edition}; the edition ${newest.edition} is at hand: ${added.length} added, ${gone.length} gone, ${changed.length} changed`,
        hint: `Run "plinth clauses ${table}" to see which records are affected.`,
        records: [],
        related: newest.file
          ? [{ place: { file: newest.file, line: 1, column: 1 }, message: `edition ${newest.edition}` }]
          : [],
        data: { table, edition: newest.edition },
      },
    ];
  },
});

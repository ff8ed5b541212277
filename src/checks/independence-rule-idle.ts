import { requiredRoles } from '../graph/approvals.ts';
import { defineCheck } from './check.ts';

export const independenceRuleIdle = defineCheck({
  code: 'independence-rule-idle',
  level: 'error',
  title: 'A rule of independence can never apply',
  basis: 'common practice, no source',
  explain:
    'A rule under `independence` in plinth.yaml names a record type that does not exist, or a role that no record of its types needs. Mostly it is a slip of spelling.\n\nA rule that never applies looks like a safeguard and is none: one person could approve in both roles, and no finding would say so.\n\nCorrect the name, or add the role under `approval_roles`.',
  awaitsProject: true,
  examines: 'rules of independence',
  subjects: ({ project }) => (project.fields.independence ?? []).map((rule, index) => ({ rule, index })),
  judge: ({ rule, index }, { graph, project }) => {
    const at = (...path: readonly (string | number)[]) =>
      project.yaml.place(['independence', index, ...path]);
    const unknown = rule.types.flatMap((type, place) =>
      type === '*' || graph.types.has(type) ? [] : [{ type, place }],
    );
    const types = rule.types.includes('*')
      ? [...graph.types.keys()]
      : rule.types.filter((type) => graph.types.has(type));
    const needed = new Set(types.flatMap((type) => requiredRoles(project.fields, type)));
    const idle = rule.roles.flatMap((role, place) => (needed.has(role) ? [] : [{ role, place }]));
    return [
      ...unknown.map(({ type, place }) => ({
        place: at('types', place),
        message: `a rule of independence names the record type "${type}", which does not exist`,
        hint: `Correct the name; record types are: ${[...graph.types.keys()].join(', ')}.`,
        records: [],
      })),
      ...(types.length === 0 ? [] : idle).map(({ role, place }) => ({
        place: at('roles', place),
        message: `a rule of independence names the role "${role}", which no record of its types needs`,
        hint: `Correct the name, or add the role under "approval_roles"; needed are: ${[...needed].join(', ') || 'none'}.`,
        records: [],
      })),
    ];
  },
});

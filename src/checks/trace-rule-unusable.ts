import { nearestName } from '../records/nearest-name.ts';
import { type Draft, defineCheck } from './check.ts';

export const traceRuleUnusable = defineCheck({
  code: 'trace-rule-unusable',
  level: 'error',
  title: 'A trace rule names a type, a link or a field that does not exist',
  basis: 'common practice, no source',
  explain:
    'A rule under `trace_rules` in plinth.yaml names a record type that does not exist, a link that records of its type do not have, or a field that they do not have. It can never find anything, or finds fault with every record.\n\nA rule that never applies looks like a safeguard and is none.\n\nCorrect the name; `plinth explain TYPE` lists the fields and links of a type.',
  examines: 'trace rules',
  subjects: ({ project }) => (project.fields.trace_rules ?? []).map((rule, index) => ({ rule, index })),
  judge: ({ rule, index }, { graph, project }) => {
    const at = (...path: readonly (string | number)[]) => project.yaml.place(['trace_rules', index, ...path]);
    const types = [...graph.types.keys()];
    const unknownType = (name: string, ...path: readonly (string | number)[]): readonly Draft[] => {
      if (graph.types.has(name)) return [];
      const near = nearestName(name, types);
      return [
        {
          place: at(...path),
          message: `the trace rule "${rule.name}" names the record type "${name}", which does not exist`,
          hint: near ? `Did you mean "${near}"?` : `Use one of: ${types.join(', ')}.`,
          records: [],
        },
      ];
    };
    const wrong = [
      ...unknownType(rule.type, 'type'),
      ...(rule.types ?? []).flatMap((name, position) => unknownType(name, 'types', position)),
    ];
    if (wrong.length > 0) return wrong;
    // The record that holds the link: the one of the rule, or one at the other end.
    const holders = rule.direction === 'out' ? [rule.type] : (rule.types ?? types);
    const links = new Set(
      holders.flatMap((name) => graph.types.get(name)?.links.map((link) => link.field) ?? []),
    );
    const fields = graph.types.get(rule.type)?.fields ?? [];
    return [
      ...(links.has(rule.link)
        ? []
        : [
            {
              place: at('link'),
              message:
                `the trace rule "${rule.name}" asks for the link "${rule.link}", which ${holders.length === 1 ? `a ${holders[0]} does` : 'no record type does'} not have`.replace(
                  'no record type does not have',
                  'no record type has',
                ),
              hint: `Use one of: ${[...links].join(', ') || 'none'}.`,
              records: [],
            },
          ]),
      ...Object.keys(rule.where ?? {})
        .filter((name) => !fields.includes(name))
        .map((name) => ({
          place: at('where', name),
          message: `the trace rule "${rule.name}" looks at the field "${name}", which a ${rule.type} does not have`,
          hint: `Use some of: ${fields.join(', ')}.`,
          records: [],
        })),
    ];
  },
});

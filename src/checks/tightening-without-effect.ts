import type { Level } from '../findings/finding.ts';
import { isAtLeast } from '../findings/order.ts';
import type { PlinthFields } from '../records/fields.ts';
import { nearestName } from '../records/nearest-name.ts';
import { defineCheck } from './check.ts';
import { traceRuleNotMet } from './trace-rule-not-met.ts';

/** Lowest level that findings of a code have by themselves. Those of trace rules have the level of their rule. */
const ownLevel = (
  code: string,
  { trace_rules: rules = [] }: PlinthFields,
  levels: ReadonlyMap<string, Level>,
): Level | undefined =>
  code === traceRuleNotMet.code && rules.length > 0
    ? rules.map((rule) => rule.level ?? traceRuleNotMet.level).reduce((a, b) => (isAtLeast(a, b) ? b : a))
    : levels.get(code);

export const tighteningWithoutEffect = defineCheck({
  code: 'tightening-without-effect',
  level: 'warning',
  title: 'A tightened level can have no effect',
  basis: 'common practice, no source',
  explain:
    'An entry under `tighten` in plinth.yaml names a code that no finding has, or a record type that does not exist. Levels are only ever raised, so an entry with a level below that of the finding changes nothing either.\n\nAn entry that does nothing looks like a safeguard and is none.\n\nCorrect the code or the type (`plinth explain` lists the codes). To let a finding pass, use a waiver, which has a reason and an end.',
  examines: 'tightened levels',
  subjects: ({ project }) => (project.fields.tighten ?? []).map((entry, index) => ({ entry, index })),
  judge: ({ entry, index }, { graph, project, findingLevels }) => {
    const at = (...path: readonly (string | number)[]) => project.yaml.place(['tighten', index, ...path]);
    const own = ownLevel(entry.code, project.fields, findingLevels);
    const near = nearestName(entry.code, [...findingLevels.keys()]);
    return [
      ...(own === undefined
        ? [
            {
              place: at('code'),
              message: `no finding has the code "${entry.code}", whose level is to be raised`,
              hint: near ? `Did you mean "${near}"?` : 'Run "plinth explain" for the codes.',
              records: [],
            },
          ]
        : own === 'error' || own === entry.level
          ? [
              {
                place: at('level'),
                message: `findings of ${entry.code} have the level ${own} already, which ${entry.level} does not raise`,
                hint: 'Remove the entry, or raise the level. To accept a finding, use a waiver.',
                records: [],
              },
            ]
          : []),
      ...(entry.types ?? []).flatMap((type, position) =>
        graph.types.has(type)
          ? []
          : [
              {
                place: at('types', position),
                message: `a tightened level names the record type "${type}", which does not exist`,
                hint: `Use one of: ${[...graph.types.keys()].join(', ')}.`,
                records: [],
              },
            ],
      ),
    ];
  },
});

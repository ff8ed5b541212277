import { currentDesignPlans, type GateCondition, gatesOf } from '../evidence/gates.ts';
import { nearestName } from '../records/nearest-name.ts';
import { placeOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

type Fault = Pick<Draft, 'message' | 'hint'> & { readonly path: readonly (string | number)[] };

const unknown = (
  what: string,
  name: string,
  known: readonly string[],
  path: readonly (string | number)[],
): Fault => {
  const near = nearestName(name, known);
  return {
    path,
    message: `names the ${what} "${name}", which does not exist`,
    hint: near ? `Did you mean "${near}"?` : `Correct the ${what}.`,
  };
};

const faultsOf = (
  { asks, types = [], records = [], codes = [], level }: GateCondition,
  { graph, findingLevels }: CheckContext,
): readonly Fault[] => {
  const names = [
    ...types.flatMap((type, at) =>
      graph.types.has(type) ? [] : [unknown('record type', type, [...graph.types.keys()], ['types', at])],
    ),
    ...codes.flatMap((code, at) =>
      findingLevels.has(code) ? [] : [unknown('code', code, [...findingLevels.keys()], ['codes', at])],
    ),
  ];
  if (names.length > 0) return names;
  if ((asks === 'approved' || asks === 'shown') && types.length + records.length === 0)
    return [
      {
        path: ['asks'],
        message: `asks that records are ${asks}, and names none`,
        hint: 'Name them under "types" or "records".',
      },
    ];
  if (asks === 'free of findings' && codes.length === 0 && level === undefined)
    return [
      {
        path: ['asks'],
        message: 'asks that no finding stands, and names no code and no level',
        hint: 'Add "codes" or "level".',
      },
    ];
  return [];
};

export const gateConditionEmpty = defineCheck({
  code: 'gate-condition-empty',
  level: 'error',
  title: 'A condition of a gate asks for nothing',
  basis: 'ISO 13485:2016 7.3.2',
  explain:
    'A condition of a gate asks that records are approved or shown and names none, or that no finding stands and names no code and no level, or names a record type or a code that does not exist. It would hold whatever the file looks like.\n\nA condition that always holds is worse than none: the table of the gate shows it as met.\n\nName what the condition speaks of, or let people judge it: `asks: judged by people`.',
  examines: 'conditions of gates',
  subjects: ({ graph }) =>
    currentDesignPlans(graph)
      .flatMap((plan) => gatesOf(plan, graph))
      .flatMap(({ plan, gate, index }) =>
        gate.conditions.map((condition, at) => ({ plan, gate, index, condition, at })),
      ),
  judge: ({ plan, gate, index, condition, at }, context) =>
    faultsOf(condition, context).map(({ path, message, ...rest }) => ({
      ...rest,
      place: placeOf(plan, 'stages', index, 'gate', 'conditions', at, ...path),
      message: `${plan.id}: the condition "${condition.condition}" of gate ${gate.gate} ${message}`,
      records: [plan.id],
    })),
});

import { nearestName } from '../records/nearest-name.ts';
import { type Draft, defineCheck } from './check.ts';

export const waiverUnknown = defineCheck({
  code: 'waiver-unknown',
  level: 'error',
  title: 'A waiver names a code or a record that does not exist',
  basis: 'common practice, no source',
  explain:
    'A waiver in plinth.yaml names a finding code that does not exist, or a record that is not in the technical file. It sets nothing apart, now or later.\n\nMostly it is a slip of spelling, and the finding that was to be accepted still stands. Where the record has gone, the decision about it has lost its object.\n\nCorrect the code or the id, or remove the waiver; the decision stays in the history of the file.',
  examines: 'waivers',
  subjects: ({ project }) => (project.fields.waivers ?? []).map((waiver, index) => ({ waiver, index })),
  judge: ({ waiver, index }, { graph, project, findingLevels }) => {
    const wrong = (field: 'code' | 'record', value: string, known: Iterable<string>): Draft => {
      const near = nearestName(value, [...known]);
      return {
        place: project.yaml.place(['waivers', index, field]),
        message: `a waiver names the ${field === 'code' ? 'finding code' : 'record'} "${value}", which does not exist`,
        hint: near ? `Did you mean "${near}"?` : 'Correct it, or remove the waiver.',
        records: [],
        data: { [field]: value },
      };
    };
    return [
      ...(findingLevels.has(waiver.code) ? [] : [wrong('code', waiver.code, findingLevels.keys())]),
      ...(graph.record(waiver.record) ? [] : [wrong('record', waiver.record, graph.records.keys())]),
    ];
  },
});

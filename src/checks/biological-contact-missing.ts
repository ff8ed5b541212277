import { evaluations, groupsOf, hasContact } from '../evidence/biological-contact.ts';
import { nearestName } from '../records/nearest-name.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const biologicalContactMissing = defineCheck({
  code: 'biological-contact-missing',
  level: 'warning',
  title: 'A material has no stated contact or contact time',
  basis:
    'Regulation (EU) 2017/745 Annex I 10.1(a) and 10.1(b); ISO 10993-1 (categorisation by contact and duration, clause from memory)',
  explain:
    'A material is in no group of a biological evaluation; or a group touches tissue, and its contact or duration is missing; or a group is said to touch nothing, without a reason; or an endpoint names a group that the evaluation does not have.\n\nContact and time decide which endpoints have to be addressed. A material that nobody placed is a material that nobody evaluated.\n\nPut the material into a group, state tissue, contact and duration, and why. A material without any contact belongs into a group with `tissue: none` and the reason.',
  awaits: ['biological-evaluation'],
  examines: 'materials, and groups of biological evaluations',
  subjects: ({ graph }) => [
    ...graph
      .recordsOf('material')
      .filter((material) => material.status !== 'retired')
      .map((material) => ({ kind: 'material' as const, material })),
    ...evaluations(graph).map((evaluation) => ({ kind: 'evaluation' as const, evaluation })),
  ],
  judge: (subject, { graph }): readonly Draft[] => {
    if (subject.kind === 'material') {
      const { material } = subject;
      return groupsOf(material.id, graph).length > 0
        ? []
        : [
            {
              place: placeOf(material, 'contact'),
              message: `${material.id} is in no group of a biological evaluation`,
              hint: 'Add it to a group with its tissue, contact and duration; to one with "tissue: none" and a reason where it touches nothing.',
              records: [material.id],
            },
          ];
    }
    const { evaluation } = subject;
    const names = evaluation.fields.groups.map(({ group }) => group);
    return [
      ...evaluation.fields.groups.flatMap((group, index): readonly Draft[] => {
        const missing = hasContact(group)
          ? (['contact', 'duration'] as const).filter((field) => group[field] === undefined)
          : (['reason'] as const).filter((field) => group[field] === undefined);
        return missing.map((field) => ({
          place: placeOf(evaluation, 'groups', index, 'group'),
          message: hasContact(group)
            ? `${evaluation.id}: the group "${group.group}" touches ${group.tissue}, and its ${field} is not stated`
            : `${evaluation.id}: the group "${group.group}" is said to touch nothing, without a reason`,
          hint: hasContact(group)
            ? `State "${field}" of the group.`
            : 'Say why nothing of it reaches the patient.',
          records: [evaluation.id],
        }));
      }),
      ...evaluation.fields.endpoints.flatMap(({ groups }, index) =>
        groups.flatMap((group, at): readonly Draft[] => {
          if (names.includes(group)) return [];
          const near = nearestName(group, names);
          return [
            {
              place: placeOf(evaluation, 'endpoints', index, 'groups', at),
              message: `${evaluation.id} addresses an endpoint for the group "${group}", which it does not have`,
              hint: near ? `Did you mean "${near}"?` : `Use one of: ${names.join(', ')}.`,
              records: [evaluation.id],
            },
          ];
        }),
      ),
    ];
  },
});

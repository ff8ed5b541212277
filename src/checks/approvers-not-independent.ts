import { dependentApprovers } from '../graph/independence.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const approversNotIndependent = defineCheck({
  code: 'approvers-not-independent',
  level: 'error',
  title: 'One person approved in two roles that different persons must hold',
  basis:
    'a rule of the technical file itself (`independence` in plinth.yaml); common practice: no clause of ISO 13485:2016 asks for different approvers, and the independent reviewer of the former 21 CFR 820.30(e) belonged to design reviews (from memory)',
  explain:
    'plinth.yaml says under `independence` that certain roles must be held by different persons on one record, and the same name stands under two of them. Capital letters and blanks make no difference.\n\nTwo signatures are meant to be two looks. Whoever wrote a requirement reads what they meant; an error in it passes twice, and the patient meets it.\n\nHave another person approve in one of the roles; their approval replaces the older one of that role. If your procedures allow one person to hold both roles, change the rule.',
  examines: 'approved records with a rule of independence',
  subjects: ({ graph, approvals, project }) =>
    [...graph.records.values()].filter(
      (record) =>
        record.sound &&
        record.status !== 'retired' &&
        (approvals.of(record.id)?.states.length ?? 0) > 0 &&
        (project.fields.independence ?? []).some(
          ({ types }) => types.includes('*') || types.includes(record.type),
        ),
    ),
  judge: (record, { approvals, project }) =>
    dependentApprovers(project.fields, record.type, approvals.of(record.id)?.states ?? []).map(
      ({ first, second }) => ({
        place: placeOf(record, 'approvals', second.index, 'name'),
        message: `${record.id} was approved by ${second.approval.name} both as ${first.approval.role} and as ${second.approval.role}; different persons must hold these roles`,
        hint: `Have another person approve ${record.id} as ${first.approval.role} or as ${second.approval.role}.`,
        records: [record.id],
        related: [
          {
            place: placeOf(record, 'approvals', first.index, 'name'),
            message: `${first.approval.name} as ${first.approval.role}`,
          },
        ],
        data: { name: second.approval.name, roles: [first.approval.role, second.approval.role] },
      }),
    ),
});

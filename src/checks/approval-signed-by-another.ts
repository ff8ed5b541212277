import { signedApprovals } from '../graph/signed-approvals.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const approvalSignedByAnother = defineCheck({
  code: 'approval-signed-by-another',
  level: 'error',
  title: 'An approval was signed by somebody who is not the approver, or not in that role',
  basis:
    '21 CFR 11.50 and 11.100 (a signature belongs to one person); ISO 13485:2016 5.5.1 (responsibility and authority)',
  explain:
    "The commit that brought the approval in carries a good signature, but not that of the person whose name stands in the approval, or that person may not approve in this role. Who may sign what is listed under `signatures` in plinth.yaml: the name, the signer as the allowed-signers file calls them, and the roles. The author field of a commit proves nothing; only the key does.\n\nAn approval in another one's name is no approval, whoever meant well.\n\nHave the right person approve in a commit of their own, or correct the list in plinth.yaml if it is out of date; a change of that list deserves a careful review.",
  examines: 'approvals by signed commits',
  subjects: (context) =>
    signedApprovals(context).filter((each) => each.signature.signature?.state === 'good'),
  judge: ({ record, state, signature }, { project }) => {
    const { role, name, date } = state.approval;
    const signer = signature.signature?.signer ?? 'somebody without a name';
    const people = project.fields.signatures?.people ?? [];
    const person = people.find((each) => each.name === name);
    const wrong =
      person === undefined
        ? `plinth.yaml lists nobody called ${name} under signatures`
        : person.signer !== signer
          ? `the signer is ${signer}, expected ${person.signer}`
          : person.roles.includes(role)
            ? undefined
            : `${name} may sign as ${person.roles.join(', ')}, not as ${role}`;
    if (wrong === undefined) return [];
    return [
      {
        place: placeOf(record, 'approvals', state.index, 'name'),
        message: `the approval of ${record.id} by ${name} (${role}) of ${date} is signed by another: ${wrong}`,
        hint: `Have ${name} approve in a signed commit of their own, or correct "signatures" in plinth.yaml.`,
        records: [record.id],
        data: { role, name, signer, commit: signature.commit?.id ?? '' },
      },
    ];
  },
});

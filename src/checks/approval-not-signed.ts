import { type SignedApproval, signedApprovals } from '../graph/signed-approvals.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** What is wrong with how the approval came in; undefined where the signature is good. */
const fault = ({ signature: { commit, signature, isCut } }: SignedApproval): string | undefined => {
  if (!commit) return 'no commit holds it yet';
  const named = `commit ${commit.id.slice(0, 12)}`;
  if (signature?.state === 'good') return undefined;
  if (isCut) return `it may have come in before ${named}, where the history at hand begins`;
  switch (signature?.state) {
    case 'unsigned':
      return `${named} is not signed`;
    case 'untrusted':
      return `${named} is signed with a key that the allowed signers do not name, or not for that time`;
    case 'bad':
      return `the signature of ${named} does not fit it`;
    default:
      return `git could not check the signature of ${named}`;
  }
};

export const approvalNotSigned = defineCheck({
  code: 'approval-not-signed',
  level: 'error',
  title: 'An approval did not come in by a signed commit',
  basis: '21 CFR 11.70 (signatures linked to their records); ISO 13485:2016 4.2.5',
  explain:
    "plinth.yaml asks under `signatures` that every approval since a given day comes into the file by a commit with a signature that git verifies against the allowed signers. This one did not: it is not committed yet, the commit is unsigned or signed with an unknown key, or its signature does not fit.\n\nAn approval is a line of text that anybody can type. The signature ties it to a key that one person holds, so that nobody can approve in another one's name.\n\nHave the person named in the approval give it anew in a commit of their own, signed with their key (`git commit -S`). Where the history is cut short (a shallow clone), fetch all of it. Whether this counts as an electronic signature depends on your procedures and on local law.",
  examines: 'approvals that must be signed',
  subjects: signedApprovals,
  judge: (approval) => {
    const { record, state } = approval;
    const wrong = fault(approval);
    if (wrong === undefined) return [];
    const { role, name, date } = state.approval;
    return [
      {
        place: placeOf(record, 'approvals', state.index, 'name'),
        message: `the approval of ${record.id} by ${name} (${role}) of ${date} is not signed: ${wrong}`,
        hint: `Have ${name} give the approval in a commit signed with their own key.`,
        records: [record.id],
        data: {
          role,
          name,
          signature: approval.signature.signature?.state ?? 'none',
          ...(approval.signature.commit ? { commit: approval.signature.commit.id } : {}),
        },
      },
    ];
  },
});

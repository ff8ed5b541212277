import { defineCheck } from './check.ts';

export const signaturesNotChecked = defineCheck({
  code: 'signatures-not-checked',
  level: 'error',
  title: 'Signed mode is asked for, but signatures could not be checked',
  basis: '21 CFR 11.10 and 11.50 where approvals are kept electronically; ISO 13485:2016 4.2.5',
  explain:
    "plinth.yaml asks under `signatures` that approvals come in by signed commits, and this run could not look at the signatures: there is no git repository, or no allowed-signers file was named. Passing over that in silence would let an unsigned approval through.\n\nName the file of allowed signers with `--signers FILE`, or in git's own setting `gpg.ssh.allowedSignersFile`. It must not come from the change under review, or the change could add its own key: take it from a place that only few can write, or from a revision that has been reviewed (`git show main:allowed-signers > FILE`).\n\nWhether a signed commit counts as an electronic signature depends on your procedures and on local law; plinth only reports what git verifies.",
  examines: 'technical files in signed mode',
  subjects: ({ project }) => (project.fields.signatures ? [project] : []),
  judge: (project, { signatures }) =>
    signatures?.checked
      ? []
      : [
          {
            place: project.yaml.place(['signatures'], 'key'),
            message: `signatures are asked for, but were not checked: ${signatures?.reason ?? 'this command does not look at git'}`,
            hint: 'Run the check in the git repository and name the allowed signers with --signers FILE.',
            records: [],
          },
        ],
});

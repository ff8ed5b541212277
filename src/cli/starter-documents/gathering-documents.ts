import type { StarterDocument } from './starter-document.ts';

/** Deliverables that gather one matter from the whole technical file: standards, use, evidence, approvals. */
export const gatheringDocuments: readonly StarterDocument[] = [
  {
    title: 'Standards applied',
    settings: 'formats: [docx, html, csv]\n',
    body: `# Purpose

Which standards the device was designed, tested and labelled to, in which edition and how far (Regulation (EU) 2017/745, Annex II, 4(c)). Whether a standard is harmonised in the European Union or recognised in the United States is looked up by a person, and the date says when.

:::landscape

# Standards

\`\`\`plinth standards
part: list
caption: Standards applied, with edition and extent
anchor: standards
\`\`\`

# Later editions

\`\`\`plinth standards
part: editions
caption: Standards of which there is a later edition
anchor: editions
\`\`\`

:::
`,
  },
  {
    title: 'Usability summary',
    body: `# Purpose

Who uses the device, in which tasks a use error can lead to harm, and what users did in the studies (IEC 62366-1). Whether the use is safe is judged by qualified people.

:::landscape

# Use, scenarios and studies

\`\`\`plinth usability-summary
\`\`\`

:::

# How the studies led to the design

<!-- Write: what each formative study changed, and how the scenarios of the summative study were selected. -->
`,
  },
  {
    title: 'Evidence report',
    body: `# Purpose

How the results of the verification summary were computed, so that a reviewer can repeat them by hand (ISO 13485:2016, 7.3.6). The working of each single record is in its verification report.

# Working of the results

<!-- Write: the records on which most questions are asked, each named in a view block "evidence". -->

# How well the measurements measure

\`\`\`plinth gauge-study
caption: Studies of test methods
anchor: studies
\`\`\`
`,
  },
  {
    title: 'Approvals and signature pages',
    body: `# Purpose

Who approved which record, in which role, and whether the approval still holds for what the record says today (ISO 13485:2016, 4.2.4). For records that are signed by hand on paper, add a view block "signature-page" that names them.

:::landscape

# Approvals

\`\`\`plinth approvals
caption: Approvals of the records
anchor: approvals
\`\`\`

:::
`,
  },
];

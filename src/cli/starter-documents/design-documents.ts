import type { StarterDocument } from './starter-document.ts';

/** Deliverables of design and development: from the plan to the transfer of changes. */
export const designDocuments: readonly StarterDocument[] = [
  {
    title: 'Design plan',
    body: `# Purpose

How the device is designed, by whom, in which stages, and what has to be there before each review (ISO 13485:2016, 7.3.2). The records show what was done; this plan says what is to be done.

# Scope and intended purpose

:phrase[intended_purpose]

# Stages, gates and what each gate asks for

::::unless{records=design-plan}

:::caution
To be written: the stages and gates. Add a record of type design-plan (*plinth new design-plan*), or write this section in place of this notice.
:::

::::

:::when{records=design-plan}

\`\`\`plinth gate-readiness
\`\`\`

:::

# Responsibilities and interfaces

<!-- Write: who answers for what, and how the groups that take part work together. -->

# Methods that keep inputs and outputs traceable

Needs, inputs, outputs, protocols and results are records of the technical file; the design trace matrix is drawn from their links.

# Resources and competence

<!-- Write: which people, equipment and rooms are needed, and with which competence. -->

# Reviews so far

\`\`\`plinth records
type: design-review
\`\`\`
`,
  },
  {
    title: 'Design input specification',
    body: `# Purpose

What the device must do, in limits that can be measured or inspected (ISO 13485:2016, 7.3.3).

# Intended purpose

:phrase[intended_purpose]

# Design inputs

\`\`\`plinth records
type: design-input
form: full
\`\`\`
`,
  },
  {
    title: 'Design output index',
    body: `# Purpose

Drawings, specifications, label, packaging and instructions to which the device is made, with their revisions (ISO 13485:2016, 7.3.4).

# Outputs

\`\`\`plinth records
type: design-output
fields: [kind, drawing, revision, satisfies]
caption: Design outputs and the inputs that they answer
\`\`\`

# Materials

\`\`\`plinth records
type: material
caption: Materials
\`\`\`
`,
  },
  {
    title: 'Design trace matrix',
    settings: `formats: [docx, html, csv]
`,
    body: `# Purpose

This matrix shows for each user need which design inputs, outputs, protocols and records answer it, and what the data say (ISO 13485:2016, 7.3.2). It is drawn from the records of the technical file; nothing in it is typed by hand.

:::landscape

# Matrix

\`\`\`plinth trace-matrix
caption: From user need to verdict
anchor: matrix
\`\`\`

:::
`,
  },
  {
    title: 'Verification summary',
    body: `# Purpose

What was verified, with which sample, and what the raw data show (ISO 13485:2016, 7.3.6). Every verdict is computed again from the raw data each time this document is built.

:::landscape

# Results

\`\`\`plinth verification-summary
caption: Verification results
\`\`\`

:::
`,
  },
  {
    title: 'Verification report',
    settings: `for_each: { type: verification-record }
contents: false
`,
    body: `# What was shown

The verdict on :each[id] is *:value[each/verdict]*: :value[each/reason].

Device: :device[name]. The verdict was computed from the raw data that are named below.

# The test

\`\`\`plinth records
type: verification-record
of: [each]
form: full
fields: [reports, executed, tested, lots, equipment, operator, exclusions]
\`\`\`

# What was planned

\`\`\`plinth records
type: verification-protocol
of: [each/reports]
form: full
fields: [verifies, method, condition, acceptance, sampling]
\`\`\`

# Evidence

\`\`\`plinth evidence
of: [each]
\`\`\`
`,
  },
  {
    title: 'Design validation report',
    body: `# Purpose

Whether the device does what its users need, in their hands and in a setting like theirs (ISO 13485:2016, 7.3.7; IEC 62366-1). Verification, which asks whether the device was built to its inputs, is in the verification summary. What a study means for safety is judged by qualified people.

# Product and setting

<!-- Write: which lots, made and packed how; who took part, with which training; where. -->

# Limits of the studies

<!-- Write: what a study of this size and kind cannot show. -->

:::landscape

# From need to validation

\`\`\`plinth validation-matrix
caption: User needs and their validation
anchor: needs
\`\`\`

# Results

\`\`\`plinth verification-summary
types: [validation-record]
caption: Results of validation
\`\`\`

# Use and studies

\`\`\`plinth usability-summary

\`\`\`

:::
`,
  },
  {
    title: 'Bench performance summary',
    body: `# Purpose

For a reviewer of a premarket submission: which performance tests were done on which units, against which limits, and what came out. Whether such a submission is needed, and what it must hold, is for a regulatory professional to decide.

# Device and test units

:phrase[intended_purpose]

<!-- Write: which lots, made and sterilised how; what "aged" and "shipped" mean here. -->

# Acceptance and sample sizes

<!-- Write: the policy by which confidence and reliability follow from severity, and every exception from it. -->

:::landscape

# Limits and who tests them

\`\`\`plinth limits
caption: Limits of the design inputs, tests and results
anchor: limits
\`\`\`

# Results

\`\`\`plinth verification-summary
types: [verification-record]
caption: Performance tests on the bench
\`\`\`

:::

# Failures, and what followed

<!-- Write: every test that did not pass, what was changed, and which results stand since. -->

# Summary

<!-- Write: what the tests together show, and what they do not show. -->
`,
  },
  {
    title: 'Change impact report',
    body: `# Purpose

What a change of the design touches, what was decided on each earlier result, and what came of it (ISO 13485:2016, 7.3.9). The differences between two states of the technical file are listed by \`plinth impact\`.

# Changes and their effect

\`\`\`plinth change-impact
\`\`\`
`,
  },
  {
    title: 'Design and development file index',
    body: `# Purpose

Where each record of the design and development file lies (ISO 13485:2016, 7.3.10).

# Records

\`\`\`plinth file-index
\`\`\`

# Accepted findings

\`\`\`plinth waivers
\`\`\`
`,
  },
];

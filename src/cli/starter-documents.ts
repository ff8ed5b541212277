/**
 * The deliverables that `plinth start` lays down, as templates to edit: each says what it is for, draws what it can from
 * records, and marks where a person must write.
 */
export const starterDocuments: ReadonlyMap<string, string> = new Map([
  [
    'documents/DOC-01.md',
    `---
id: DOC-01
type: document
title: Design trace matrix
status: draft
revision: "1"
formats: [docx, html, csv]
---
# Purpose

This matrix shows for each user need which design inputs, outputs, protocols and records answer it, and what the data say (ISO 13485:2016, 7.3.2). It is drawn from the records of the technical file; nothing in it is typed by hand.

:::landscape

# Matrix

\`\`\`plinth trace-matrix
caption: From user need to verdict
anchor: matrix
\`\`\`

:::
`,
  ],
  [
    'documents/DOC-02.md',
    `---
id: DOC-02
type: document
title: Design input specification
status: draft
revision: "1"
---
# Purpose

What the device must do, in limits that can be measured or inspected (ISO 13485:2016, 7.3.3).

# Intended purpose

:phrase[intended_purpose]

# Design inputs

\`\`\`plinth records
type: design-input
form: full
\`\`\`
`,
  ],
  [
    'documents/DOC-03.md',
    `---
id: DOC-03
type: document
title: Verification summary
status: draft
revision: "1"
---
# Purpose

What was verified, with which sample, and what the raw data show (ISO 13485:2016, 7.3.6). Every verdict is computed again from the raw data each time this document is built.

:::landscape

# Results

\`\`\`plinth verification-summary
caption: Verification results
\`\`\`

:::
`,
  ],
  [
    'documents/DOC-04.md',
    `---
id: DOC-04
type: document
title: Risk table
status: draft
revision: "1"
---
# Purpose

The risks of the device before and after control, with the controls and how they are shown (ISO 14971:2019, 4.5). Whether a risk is acceptable is decided by people under the risk management plan; the table applies the criteria of that plan.

:::landscape

# Risks

\`\`\`plinth risk-table
caption: Risks before and after control
\`\`\`

:::
`,
  ],
  [
    'documents/DOC-05.md',
    `---
id: DOC-05
type: document
title: Design and development file index
status: draft
revision: "1"
---
# Purpose

Where each record of the design and development file lies (ISO 13485:2016, 7.3.10).

# Records

\`\`\`plinth file-index
\`\`\`
`,
  ],
  [
    'documents/DOC-06.md',
    `---
id: DOC-06
type: document
title: Design plan
status: draft
revision: "1"
---
# Purpose

How the device is designed, by whom, in which stages, and what has to be there before each review (ISO 13485:2016, 7.3.2). The records show what was done; this plan says what is to be done.

# Scope and intended purpose

:phrase[intended_purpose]

# Stages, reviews and what each review asks for

<!-- Write this section. -->

# Responsibilities and interfaces

<!-- Write this section. -->

# Methods that keep inputs and outputs traceable

Needs, inputs, outputs, protocols and results are records of the technical file; the design trace matrix is drawn from their links.

# Resources and competence

<!-- Write this section. -->

# Reviews so far

\`\`\`plinth records
type: design-review
\`\`\`
`,
  ],
  [
    'documents/DOC-07.md',
    `---
id: DOC-07
type: document
title: Design output index
status: draft
revision: "1"
---
# Purpose

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
  ],
  [
    'documents/DOC-08.md',
    `---
id: DOC-08
type: document
title: Verification report
status: draft
revision: "1"
for_each: { type: verification-record }
contents: false
---
# What was shown

:value[each/reason].

This report tells of :each[id] on the :device[name]. The verdict was computed from the raw data that are named below.

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
  ],
  [
    'documents/DOC-09.md',
    `---
id: DOC-09
type: document
title: Validation and usability summary
status: draft
revision: "1"
---
# Purpose

Who uses the device, in which tasks a use error can lead to harm, and what users did in the studies (ISO 13485:2016, 7.3.7; IEC 62366-1). What a study means for safety is judged by qualified people.

:::landscape

# Use and studies

\`\`\`plinth usability-summary

\`\`\`

:::
`,
  ],
  [
    'documents/DOC-10.md',
    `---
id: DOC-10
type: document
title: Risk management plan
status: draft
revision: "1"
---
# Scope

<!-- Which device, variants and phases of life this plan covers. -->

:phrase[intended_purpose]

# Responsibilities

<!-- Write this section. -->

# Criteria for acceptability

The criteria are those of the risk management plan record, by which each risk of the file is judged (ISO 14971:2019, 4.4).

\`\`\`plinth risk-criteria
caption: Where a residual risk is acceptable
anchor: criteria
\`\`\`

# Sample sizes

\`\`\`plinth risk-criteria
part: sampling
caption: Confidence and share of units by severity
\`\`\`

# Overall residual risk

<!-- Write this section. -->

# Production and post-production

\`\`\`plinth records
type: surveillance-plan
form: full
\`\`\`
`,
  ],
  [
    'documents/DOC-11.md',
    `---
id: DOC-11
type: document
title: Risk management report
status: draft
revision: "1"
---
# Purpose

How the risk management plan was carried out, from each hazard to what remains, and what people decided on it (ISO 14971:2019, 9). Estimates and decisions are those of the people named with each record.

# The risks at a glance

\`\`\`plinth risk-map
caption: Risks before and after control
\`\`\`

:::landscape

# Controls

\`\`\`plinth control-options
caption: Options of control, where they are in place, and what shows that they work
\`\`\`

# From each hazard to the residual risk

\`\`\`plinth hazard-traceability
caption: Traceability of hazards (ISO 14971:2019, 4.5)
\`\`\`

:::

# Residual risks told to the users

\`\`\`plinth residual-risks
caption: Residual risks in the instructions for use
\`\`\`

# Benefit and risk

\`\`\`plinth records
type: benefit-risk
form: full
\`\`\`

# Overall residual risk and review

\`\`\`plinth records
type: risk-review
form: full
\`\`\`

# Experience so far

\`\`\`plinth field-experience
caption: Events counted, held against the estimates
\`\`\`
`,
  ],
  [
    'documents/DOC-12.md',
    `---
id: DOC-12
type: document
title: General safety and performance requirements
status: draft
revision: "1"
---
# Purpose

Which requirements apply, how each is met, by which standard and where the evidence is (Regulation (EU) 2017/745, Annex II, 4). Whether a requirement is met is judged by qualified people.

:::landscape

# Requirements

\`\`\`plinth records
type: legal-requirement
fields: [applicable, reason, solution, evidence]
caption: Requirements and where they are met
\`\`\`

# Standards

\`\`\`plinth records
type: standard
caption: Standards
\`\`\`

:::
`,
  ],
]);

import type { StarterDocument } from './starter-document.ts';

/** Deliverables that answer the law: requirements, standards, labels, biology, sterility and shelf life, what is handed in. */
export const conformityDocuments: readonly StarterDocument[] = [
  {
    title: 'General safety and performance requirements',
    settings: 'formats: [docx, html]\n',
    body: `# Purpose

Which requirements apply, how each is met, by which standard and where the evidence is (Regulation (EU) 2017/745, Annex II, 4). Whether a requirement is met is judged by qualified people.

The requirements are told in our own words, to find the clause by; what is asked is what the law says in the edition in force. A row without an answer reads *not answered*, and one that nobody has confirmed *not decided*. \`plinth new legal-requirement --table eu-mdr-annex-1\` lays down a record for each requirement, to be answered by people.

# Edition

\`\`\`plinth legal-requirements
table: eu-mdr-annex-1
part: edition
\`\`\`

# Class of the device

\`\`\`plinth records
type: classification
form: full
\`\`\`

# Overview

\`\`\`plinth legal-requirements
table: eu-mdr-annex-1
part: summary
caption: Requirements and how many of their rows apply
anchor: overview
\`\`\`

:::landscape

# Chapter I: General requirements

\`\`\`plinth legal-requirements
table: eu-mdr-annex-1
clauses: ["1", "2", "3", "4", "5", "6", "7", "8", "9"]
\`\`\`

# Chapter II: Design and manufacture

\`\`\`plinth legal-requirements
table: eu-mdr-annex-1
clauses: ["10", "11", "12", "13", "14", "15", "16", "17", "18", "19", "20", "21", "22"]
\`\`\`

# Chapter III: Information supplied with the device

\`\`\`plinth legal-requirements
table: eu-mdr-annex-1
clauses: ["23"]
\`\`\`

# Documents that hold the evidence

\`\`\`plinth legal-requirements
table: eu-mdr-annex-1
part: documents
caption: Documents that hold the evidence
anchor: evidence
\`\`\`

:::
`,
  },
  {
    title: 'Label and instructions content',
    body: `# Purpose

Where each particular stands that Annex I of Regulation (EU) 2017/745 asks for on the label (23.2), on the sterile packaging (23.3) and in the instructions for use (23.4), by which words or symbol, and why a particular does not apply.

:::landscape

# Particulars

\`\`\`plinth label-content
part: particulars
caption: Particulars and where they stand
\`\`\`

# Symbols

\`\`\`plinth label-content
part: symbols
caption: Symbols and what stands beside them
\`\`\`

# Languages

\`\`\`plinth label-content
part: languages
caption: Languages by market
\`\`\`

:::
`,
  },
  {
    title: 'Biological evaluation matrix',
    body: `# Purpose

Which materials touch the patient, for how long, which endpoints follow by ISO 10993-1, and how the evaluator addressed each. The evaluation itself is the work of a qualified person.

:::landscape

# Contact

\`\`\`plinth biological-matrix
part: contact
caption: Materials by contact and duration
\`\`\`

# Materials and endpoints

\`\`\`plinth biological-matrix
part: matrix
caption: How each endpoint was addressed for each material
\`\`\`

# Evidence

\`\`\`plinth biological-matrix
part: endpoints
caption: Tests, data and rationales with their samples
\`\`\`

:::
`,
  },
  {
    title: 'Sterilisation, packaging and shelf life',
    body: `# Purpose

How the device was shown to be sterile, to stay sterile in its pack, and to work to the end of its shelf life: which units were sterilised, aged, shipped and tested, how many, and when.

# Ageing

<!-- Write: what the accelerated ageing stands for, why its factor holds for these materials, and when real-time results are due. -->

# From the lots to the tests

\`\`\`plinth conditioning-tree
part: figure
caption: Conditioning of the units, from the lots to the tests
\`\`\`

:::landscape

# Steps

\`\`\`plinth conditioning-tree
part: steps
caption: Steps of conditioning with their units
\`\`\`

# Protocols and their units

\`\`\`plinth conditioning-tree
part: draws
caption: Which protocol draws which units
\`\`\`

:::

# Calendar

\`\`\`plinth conditioning-tree
part: calendar
caption: Steps, tests and pulls by day
\`\`\`
`,
  },
  {
    title: 'Technical documentation',
    settings: 'formats: [docx, html]\n',
    body: `# Purpose

Which document answers which row of the table of contents that a submission follows, such as Annexes II and III of Regulation (EU) 2017/745, and why a row is left empty. That a row is answered does not say that the answer suffices.

:::landscape

# Rows

\`\`\`plinth submission-index
\`\`\`

# Materials

\`\`\`plinth materials
caption: Materials by part and contact
\`\`\`

# Questions of authorities

\`\`\`plinth authority-questions
caption: Questions, answers and what was changed
\`\`\`

:::
`,
  },
  {
    title: 'EU declaration of conformity, draft',
    settings: 'subtitle: Not signed\ncontents: false\n',
    body: `# What this is

A draft, filled in from the technical file. Approving it approves its text; it signs nothing. Whether the device conforms, and who may declare it, is for the person who signs to decide, by the law itself (Regulation (EU) 2017/745, Article 19 and Annex IV).

# Items

\`\`\`plinth declaration
caption: Items of the declaration
\`\`\`
`,
  },
];

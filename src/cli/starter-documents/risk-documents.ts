import type { StarterDocument } from './starter-document.ts';

/** Deliverables of risk management. */
export const riskDocuments: readonly StarterDocument[] = [
  {
    title: 'Risk management plan',
    body: `# Scope

<!-- Write: which device, variants and phases of life this plan covers. -->

:phrase[intended_purpose]

# Responsibilities

<!-- Write: who analyses, who decides and who reviews, with which competence and authority. -->

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

<!-- Write: how the overall residual risk is judged, by which criteria and by whom. -->

# Production and post-production

\`\`\`plinth records
type: surveillance-plan
form: full
named_by: false
\`\`\`
`,
  },
  {
    title: 'Risk table',
    body: `# Purpose

The risks of the device before and after control, with the controls and how they are shown (ISO 14971:2019, 4.5). Whether a risk is acceptable is decided by people under the risk management plan; the table applies the criteria of that plan.

:::landscape

# Risks

\`\`\`plinth risk-table
caption: Risks before and after control
\`\`\`

:::
`,
  },
  {
    title: 'Risk management report',
    body: `# Purpose

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
  },
  {
    title: 'Benefit-risk analysis',
    body: `# Purpose

For each residual risk that the criteria of the risk management plan do not accept: whether its benefit outweighs it, decided by people, with their reasons (ISO 14971:2019, 7.4).

# Benefit

:phrase[intended_purpose]

<!-- Write: what the patient gains, on which evidence, against which alternatives. -->

# Criteria

\`\`\`plinth risk-criteria
\`\`\`

# Decisions

\`\`\`plinth records
type: benefit-risk
form: full
fields: [decides, decision, date]
\`\`\`

:::landscape

# Residual risks

\`\`\`plinth residual-risks
\`\`\`

:::

# When a decision is taken again

<!-- Write: which complaints, reports or changes reopen it. -->
`,
  },
];

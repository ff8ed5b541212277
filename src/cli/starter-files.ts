import { starterDocuments } from './starter-documents/index.ts';

/** What `plinth start` lays down. Text in angle brackets is for people to replace. */
export const starterFiles: ReadonlyMap<string, string> = new Map([
  [
    'plinth.yaml',
    `# What holds for the whole technical file. "plinth explain" and the schema plinth.schema.json describe each field.
device:
  name: "<name of the device>"
  maker: "<legal manufacturer>"

# Wordings that must be the same everywhere. In documents write :phrase[intended_purpose].
phrases:
  intended_purpose: "<what the device is for, on whom, by whom>"

# Links that records must have beyond what the checks ask, with the clause behind each. From 2 February 2026 21 CFR 820
# as amended incorporates ISO 13485:2016 by reference (820.7), so the same clauses hold there; 820.10(c) says for which
# classes of devices 7.3 holds.
# Take away the marks to use them.
# trace_rules:
#   - { name: an approved input has been reviewed, type: design-input, status: [approved], link: reviewed, direction: in, types: [design-review], clause: "ISO 13485:2016 7.3.3" }
#   - { name: an approved output has been reviewed, type: design-output, status: [approved], link: reviewed, direction: in, types: [design-review], clause: "ISO 13485:2016 7.3.5" }
#   - { name: an approved result has been reviewed, type: verification-record, status: [approved], link: reviewed, direction: in, types: [design-review], level: warning, clause: "ISO 13485:2016 7.3.5" }
#   - { name: an approved protocol says which output it tests, type: verification-protocol, status: [approved], link: tests, direction: out, types: [design-output], clause: "ISO 13485:2016 7.3.6" }
#   - { name: a design change says what it affects, type: design-change, link: affected, direction: out, clause: "ISO 13485:2016 7.3.9" }
# Findings that weigh more in this file than by themselves.
# tighten:
#   - { code: single-lot, level: error, types: [verification-record] }

# Roles that must approve a record; "*" holds for types without an entry.
approval_roles:
  "*": [quality lead]

# Roles that different persons must hold on one record. Name them above first.
# independence:
#   - { types: [design-input, design-output], roles: [design engineer, quality lead] }
`,
  ],
  [
    'risks/RP-01.md',
    `---
id: RP-01
type: risk-plan
title: Risk management plan
status: draft
# Complete the plan and have it approved before the first risk is.
# date: the day from which the plan holds, such as 2026-01-31
scope: "<device, variants, and the phases of life that the plan covers>"
# Scales and acceptability: an example to be replaced by your own (ISO 14971:2019, 4.4).
criteria:
  severities:
    - { class: S1, name: discomfort }
    - { class: S2, name: minor injury or short delay }
    - { class: S3, name: injury that needs intervention }
    - { class: S4, name: serious injury }
    - { class: S5, name: life-threatening or permanent injury }
  probability:
    denominator: per use
    bands:
      - { band: O1, below: 0.000001 }
      - { band: O2, below: 0.00001 }
      - { band: O3, below: 0.0001 }
      - { band: O4, below: 0.001 }
      - { band: O5 }
  acceptable: { S1: O5, S2: O4, S3: O2, S4: O1, S5: O1 }
  not_estimable:
    acceptable_up_to: S2
    statement: "<what holds where the probability of harm cannot be estimated>"
# Confidence and reliability by severity: an example; no regulation sets these numbers. Justify your own.
sampling_policy:
  - { severity: S1, confidence: 0.95, reliability: 0.90 }
  - { severity: S2, confidence: 0.95, reliability: 0.90 }
  - { severity: S3, confidence: 0.95, reliability: 0.95 }
  - { severity: S4, confidence: 0.95, reliability: 0.99 }
  - { severity: S5, confidence: 0.95, reliability: 0.99 }
overall_residual_risk:
  method: "<how all residual risks are judged together, and by which criteria>"
  decided_by: [quality lead]
verification_of_controls: "<how it is seen that controls are in place, and shown that they work>"
information_after_release: "<what is collected and reviewed in production and afterwards, and how often>"
# Words for hazards and harms; with them, checks find a harm that stands as a hazard.
# vocabulary:
#   hazards: [{ term: micro-organisms }]
#   harms: [{ term: infection of the surgical site, severity: S4 }]
---
## Responsibilities

<!-- Write: who analyses, who decides and who reviews, with which competence and authority. -->

## Review

<!-- Write: when the plan and its results are reviewed, and by whom. -->
`,
  ],
  ...starterDocuments,
]);

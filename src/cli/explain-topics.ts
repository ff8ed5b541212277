/** A question that reviewers ask again and again, and the findings that would have told of it before they did. */
export interface DeficiencyQuestion {
  readonly question: string;
  readonly codes: readonly string[];
}

/**
 * Questions of deficiency letters. Common practice, no source: gathered from what notified bodies and authorities publish
 * about incomplete submissions, and from reviews. They are in our own words.
 */
export const deficiencyQuestions: readonly DeficiencyQuestion[] = [
  {
    question: 'Justify the sample size of the test.',
    codes: [
      'sampling-below-policy',
      'sample-size-under-plan',
      'sample-makes-no-statement',
      'plan-cannot-pass',
    ],
  },
  {
    question: 'The report used revision A; the design that is submitted is C.',
    codes: ['tested-revision-not-released', 'change-revision-differs'],
  },
  {
    question: 'The acceptance criterion differs between protocol and specification.',
    codes: ['acceptance-looser-than-input', 'acceptance-unknown-characteristic', 'limit-untested'],
  },
  {
    question: 'Accelerated ageing does not support the shelf life.',
    codes: [
      'planned-ageing-too-short',
      'shelf-life-beyond-evidence',
      'accelerated-ageing-alone',
      'stated-result-differs',
    ],
  },
  {
    question: 'A requirement is marked as not applicable without a reason.',
    codes: ['applicability-without-reason', 'applicability-not-confirmed', 'clause-not-answered'],
  },
  {
    question: 'The intended purpose differs between instructions, evaluation and risk file.',
    codes: ['phrase-differs', 'intended-purpose-differs', 'phrase-value-differs', 'device-name-differs'],
  },
  {
    question: 'A risk control has no evidence that it works.',
    codes: ['risk-control-not-verified', 'risk-control-unproven', 'control-shown-by-unrelated'],
  },
  {
    question: 'A residual risk is not in the instructions for use.',
    codes: ['disclosed-risk-missing', 'disclosure-not-in-wording'],
  },
  {
    question: 'A standard has been superseded, and there is no gap analysis.',
    codes: ['superseded-standard-unanalysed', 'gap-analysis-incomplete', 'standard-edition-differs'],
  },
  {
    question: 'Raw data or statistics are missing.',
    codes: ['data-file-missing', 'raw-data-changed', 'verdict-undecided', 'requirement-without-evidence'],
  },
  {
    question: 'The test articles were not sterilised, not aged or not final.',
    codes: ['limit-untested', 'conditioning-not-supplied', 'tested-revision-not-released', 'single-lot'],
  },
  {
    question: 'A deviation is not assessed.',
    codes: ['deviation-open', 'undocumented-exclusion'],
  },
  {
    question: 'Variants are not covered; say why the tested one is the worst case.',
    codes: ['variant-not-covered'],
  },
  {
    question: 'The label lacks a particular.',
    codes: ['label-particular-missing', 'label-symbol-without-particular', 'market-language-missing'],
  },
  {
    question: 'Surveillance after the market has no thresholds.',
    codes: [
      'surveillance-thresholds-missing',
      'surveillance-plan-missing',
      'risk-without-surveillance',
      'surveillance-threshold-reached',
    ],
  },
];

/** A page of `plinth explain` that belongs to no single record type, view or finding. */
export interface Topic {
  readonly name: string;
  readonly title: string;
  readonly text: string;
}

/** A table as people bring one; it loads as it stands. */
export const exampleTable = `key: eu-mdr-annex-1
edition: 2027-01-01
title: General safety and performance requirements
source: Regulation (EU) 2017/745, Annex I, consolidated text
provenance: Compared row by row by the quality lead on 2027-01-11.
rows:
  - { clause: "1", title: Performance and safety }
  - { clause: "23", title: Label and instructions }
  - { clause: "23.3(h)", title: Month and year of manufacture, parent: "23" }`;

/** All topics. */
export const topics: readonly Topic[] = [
  {
    name: 'deficiency-questions',
    title: 'Questions that reviewers ask again and again, and the checks that find them first',
    text: `Each question is one that a letter from a notified body or an authority often holds, and below it stand the codes that would have told of it. A check finds what is missing or contradicts itself; whether an argument convinces is for people.\n\n${deficiencyQuestions
      .map(({ question, codes }, index) => `- ${index + 1}. ${question} -> ${codes.join(', ')}`)
      .join('\n')}`,
  },
  {
    name: 'clause-tables',
    title: 'Tables of clauses: which there are, and how to bring one of your own',
    text: `The tool ships tables of the clauses of law and standards as dated data: numbers, titles in our own words to find a clause by, the edition, and for every row how it is known. "plinth clauses" lists them. Rows from memory are shown as such, and no error rests on one alone.\n\nLaw moves. Put another edition, or a table that the tool does not have, as a YAML file into the folder clause-tables of the technical file:\n\n${exampleTable
      .split('\n')
      .map((line) => `    ${line}`)
      .join(
        '\n',
      )}\n\nA table with a fault is left out, and every fault is a finding. The edition that the file works to stands in plinth.yaml under clause_tables. "plinth clauses KEY --to EDITION" compares two editions and lists the records that hang on what differs; the check clause-table-outdated tells when a later edition is at hand than the one in use.\n\nLegal requirements answer the clauses: one record for a clause and, as rows, for what stands below it. "plinth new legal-requirement --table KEY" writes them with nothing decided.`,
  },
];

import type { Block, Inline } from '../document/model.ts';
import type { StepApproval, VouchStep } from '../vouch/vouch.ts';
import { cell, nothing, onLines, reference, standingText, text } from './cells.ts';
import { pathOf, table } from './vouch-pieces.ts';

/** True for a step that is a requirement of law. */
export const isLegalRequirement = (step: VouchStep): boolean => step.type === 'legal-requirement';

/** Needs, inputs and risks one by one; legal requirements, which may be many, as a table. */
export const upwards = (up: readonly VouchStep[], areTargets: boolean): readonly Block[] => {
  const required = up.filter(isLegalRequirement);
  return [
    ...up
      .filter((step) => !isLegalRequirement(step))
      .flatMap((step) => stepBlocks(step, areTargets ? 'target' : 'step')),
    ...(required.length > 0
      ? [
          table(
            'Legal requirements that rest on it',
            [
              { title: 'Record', width: 14 },
              { title: 'Requirement', width: 40 },
              { title: 'By way of', width: 12 },
              { title: 'Approved by', width: 34 },
            ],
            required.map((step) => [
              cell(reference(step.id)),
              cell(
                text(step.title),
                ...(step.clauses ? [text(`: ${step.clauses.join(', ')}`, { tone: 'quiet' as const })] : []),
              ),
              cell(step.from === undefined ? nothing() : reference(step.from)),
              cell(...approvalLines(step)),
            ]),
          ),
        ]
      : []),
  ];
};

const approvalWords = (approval: StepApproval): readonly Inline[] => [
  text(`${approval.role}, ${approval.name}, ${approval.date}: ${approval.meaning} `),
  text(
    `(${approval.state}${approval.changed.length > 0 ? `: ${approval.changed.join(', ')} changed` : ''})`,
    {
      tone: approval.state === 'in force' ? 'good' : 'bad',
    },
  ),
  ...(approval.signature === undefined ? [] : [text(`, ${approval.signature}`, { tone: 'quiet' })]),
];

const approvalLines = ({ approvals, missingRoles }: VouchStep): readonly Inline[] =>
  onLines([
    ...approvals.map(approvalWords),
    ...missingRoles.map((role) => [text(`${role}: missing`, { tone: 'bad' })]),
    ...(approvals.length + missingRoles.length === 0 ? [[nothing('nobody')]] : []),
  ]);

/** One step: its place in the chain (the claim has its own heading; a target can be linked to), what it says, how it stands, who approved it, and its digest. */
export const stepBlocks = (step: VouchStep, place: 'claim' | 'step' | 'target'): readonly Block[] => [
  ...(place !== 'claim'
    ? [
        {
          kind: 'paragraph',
          leadsIn: true,
          ...(place === 'target' ? { recordId: step.id } : {}),
          children: [
            text(`${'→ '.repeat(Math.min(step.depth, 6))}${step.id} ${step.title}`, { bold: true }),
            ...(step.from === undefined
              ? []
              : [text(` (${step.from} ${step.relation} ${step.id})`, { tone: 'quiet' })]),
          ],
        } as const,
      ]
    : []),
  {
    kind: 'particulars',
    entries: [
      { name: 'Type, status', value: [text(`${step.type}, ${step.status}`)] },
      ...(step.standing
        ? [
            {
              name: 'Standing',
              value: [
                standingText(step.standing.state),
                ...(step.standing.state === 'passed'
                  ? []
                  : [
                      text(`: ${step.standing.reason}`),
                      ...(step.standing.because.length > 1
                        ? [text(' (by '), ...pathOf(step.standing.because), text(')')]
                        : []),
                    ]),
              ],
            },
          ]
        : []),
      ...step.facts.map(({ name, value }) => ({ name, value: [text(value)] })),
      {
        name: 'Approved by',
        value: approvalLines(step),
      },
      {
        name: 'File, digest',
        value: onLines([[text(`${step.file}:${step.line}`)], [text(step.digest)]]),
      },
    ],
  },
];

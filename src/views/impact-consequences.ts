import type { Impact } from '../change/impact.ts';
import type { LapsedApproval } from '../change/lapsed-approvals.ts';
import type { TestToRepeat } from '../change/tests-to-repeat.ts';
import type { Block, Inline } from '../document/model.ts';
import {
  cell,
  nothing,
  onLines,
  orNothing,
  reference,
  references,
  standingText,
  text,
  verdictText,
} from './cells.ts';
import { named, pathOf, reasonLines, section } from './impact-pieces.ts';

/** What follows from the differences, section by section, in the order in which people act on it. */
export const consequences = (impact: Impact, changeId: string | undefined): readonly Block[] => [
  ...tests(impact, changeId),
  ...approvals(impact),
  ...reasonSection(impact.risks, {
    title: 'Risks to evaluate again',
    none: 'No risk or risk control rests on anything that changed.',
    caption: 'Risks touched',
    first: 'Risk',
  }),
  ...(impact.requirements.length > 0
    ? reasonSection(impact.requirements, {
        title: 'Legal requirements whose evidence changed',
        none: '',
        caption: 'Legal requirements touched',
        first: 'Requirement',
      })
    : []),
  ...reasonSection(impact.labels, {
    title: 'Labels and texts for users',
    none: 'No label, pack or text for users is touched.',
    caption: 'Labels and texts touched',
    first: 'Output',
  }),
  ...documents(impact),
  ...standing(impact),
];

const decisionLines = (test: TestToRepeat, changeId: string | undefined): readonly Inline[] =>
  onLines([
    ...test.decisions.map((each) =>
      each.isNew || each.change === changeId
        ? [reference(each.change), text(`: ${each.decision}. `, { bold: true }), text(each.reason)]
        : [reference(each.change), text(' decided about an earlier change', { tone: 'quiet' })],
    ),
    ...test.repeatedBy.map((id) => [text('repeated by '), reference(id)]),
  ]);

const tests = ({ tests: list }: Impact, changeId: string | undefined): readonly Block[] =>
  section(
    {
      title: 'Results to repeat or to argue anew',
      none: 'No result rests on anything that changed.',
      caption: 'Results touched',
    },
    list,
    [
      { title: 'Result', width: 20 },
      { title: 'Asked for', width: 13 },
      { title: 'Why', width: 37 },
      { title: 'Verdict before, after', width: 13 },
      { title: 'Decided', width: 17 },
    ],
    (test) => [
      named(test.id, test.title),
      cell(
        text(test.action === 'repeat' ? 'repeat, or say why not' : 'argue anew', {
          bold: true,
          tone: test.action === 'repeat' ? 'bad' : 'caution',
        }),
      ),
      cell(...reasonLines(test.reasons)),
      cell(
        ...onLines([
          [test.verdictBefore ? verdictText(test.verdictBefore) : nothing()],
          [test.verdictAfter ? verdictText(test.verdictAfter) : nothing()],
        ]),
      ),
      cell(...orNothing(decisionLines(test, changeId), 'nothing decided yet')),
    ],
  );

type OneOrMore<T> = readonly [T, ...T[]];

/** Approvals of one record together: they are in order of id. */
const byRecord = (list: readonly LapsedApproval[]): readonly OneOrMore<LapsedApproval>[] => {
  const groups: [LapsedApproval, ...LapsedApproval[]][] = [];
  for (const each of list) {
    const last = groups.at(-1);
    if (last && last[0].id === each.id) last.push(each);
    else groups.push([each]);
  }
  return groups;
};

const approvals = ({ approvals: list }: Impact): readonly Block[] =>
  section(
    { title: 'Approvals that lapse', none: 'No approval is lapsed.', caption: 'Lapsed approvals' },
    byRecord(list),
    [
      { title: 'Record', width: 32 },
      { title: 'Approval', width: 33 },
      { title: 'Because of', width: 20 },
      { title: 'Since', width: 15 },
    ],
    (group) => [
      named(group[0].id, group[0].title),
      cell(
        ...onLines(
          group.map((each) => [text(each.role), text(`, ${each.name}, ${each.date}`, { tone: 'quiet' })]),
        ),
      ),
      cell(...references([...new Set(group.flatMap((each) => each.because))])),
      cell(text(group.some((each) => each.isNew) ? 'this change' : 'before')),
    ],
  );

interface Touched {
  readonly id: string;
  readonly title: string;
  readonly reasons: readonly { readonly text: string; readonly path: readonly string[] }[];
}

const reasonSection = (
  list: readonly Touched[],
  {
    first,
    ...words
  }: { readonly title: string; readonly none: string; readonly caption: string; readonly first: string },
): readonly Block[] =>
  section(
    words,
    list,
    [
      { title: first, width: 35 },
      { title: 'Why', width: 65 },
    ],
    (each) => [named(each.id, each.title), cell(...reasonLines(each.reasons))],
  );

const documents = ({ documents: list }: Impact): readonly Block[] =>
  section(
    {
      title: 'Documents to issue again',
      none: 'No document reads differently.',
      caption: 'Documents that read differently',
    },
    list,
    [
      { title: 'Document', width: 50 },
      { title: 'What became of it', width: 20 },
      { title: 'Revision', width: 30 },
    ],
    (each) => [
      named(each.id, each.title),
      cell(text(each.kind)),
      cell(
        text(
          each.needsRevision ? `still ${each.revision}: give it a new one if it was issued` : each.revision,
        ),
      ),
    ],
  );

const standing = ({ standing: list }: Impact): readonly Block[] =>
  section(
    { title: 'Standing', none: 'Everything stands as before.', caption: 'Standing that differs' },
    list,
    [
      { title: 'Record', width: 30 },
      { title: 'Before', width: 14 },
      { title: 'After', width: 14 },
      { title: 'Why', width: 42 },
    ],
    (each) => [
      named(each.id, each.title),
      cell(each.before ? standingText(each.before) : nothing()),
      cell(each.after ? standingText(each.after) : nothing()),
      cell(
        ...onLines([
          [text(each.reason ?? '')],
          ...(each.because.length > 1 ? [[text('by ', { tone: 'quiet' }), ...pathOf(each.because)]] : []),
        ]),
      ),
    ],
  );

import type { Block, Inline, Table } from '../document/model.ts';
import type { RecordOf } from '../records/record.ts';
import { cell, nothing, notice, onLines, orNothing, reference, references, text } from './cells.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

interface Options extends CommonOptions {
  readonly show?: 'all' | 'open' | 'answered';
  readonly form?: 'table' | 'full';
}

type Question = RecordOf<'authority-question'>;

/** Where a question stands: accepted by the body, answered, open, or open past its day. */
const stateInlines = ({ fields }: Question, asOf: string): readonly Inline[] => {
  if (fields.closed !== undefined)
    return [text('accepted', { bold: true, tone: 'good' }), text(` ${fields.closed}`)];
  if (fields.answered !== undefined) return [text('answered', { bold: true }), text(` ${fields.answered}`)];
  const isLate = fields.due !== undefined && fields.due < asOf;
  return [text(isLate ? 'overdue' : 'open', { bold: true, tone: isLate ? 'bad' : 'caution' })];
};

const changeLines = ({ fields }: Question): readonly (readonly Inline[])[] => [
  ...(fields.changed ?? []).map(({ record, from, to, what }): readonly Inline[] => [
    reference(record),
    text(
      [from === undefined ? '' : ` revision ${from}`, to === undefined ? '' : ` to ${to}`]
        .join('')
        .replace(/^ to /, ' revision '),
    ),
    text(`: ${what}`),
  ]),
  ...(fields.no_change === undefined ? [] : [[text('none: ', { tone: 'quiet' }), text(fields.no_change)]]),
];

const table = (questions: readonly Question[], options: Options, context: ViewContext): Table => ({
  kind: 'table',
  ...captionOf(options),
  columns: [
    { title: 'Question', width: 26 },
    { title: 'Asked by', width: 20 },
    { title: 'Concerns', width: 10 },
    { title: 'Due', width: 12 },
    { title: 'State', width: 14 },
    { title: 'Changed', width: 32 },
  ],
  rows: questions.map((question) => {
    const { body, reference: letter, received, due, concerns = [], owner } = question.fields;
    return {
      recordId: question.id,
      cells: [
        cell(
          ...onLines([
            [reference(question.id), text(` ${question.title}`)],
            ...(owner === undefined ? [] : [[text(owner, { tone: 'quiet' })]]),
          ]),
        ),
        cell(
          ...onLines([
            [text(body)],
            ...(letter === undefined ? [] : [[text(letter, { tone: 'quiet' })]]),
            [text(`received ${received}`, { tone: 'quiet' })],
          ]),
        ),
        cell(...orNothing(references(concerns))),
        cell(due === undefined ? nothing('no day') : text(due)),
        cell(...stateInlines(question, context.asOf)),
        cell(...orNothing(onLines(changeLines(question)), 'not answered yet')),
      ],
    };
  }),
  description: 'Questions of authorities, their state and what was changed for them.',
});

const inFull = (question: Question, context: ViewContext): readonly Block[] => {
  const level = Math.min(6, context.enclosingLevel + 1) as 1 | 2 | 3 | 4 | 5 | 6;
  return [
    { kind: 'heading', level, children: [text(`${question.id} ${question.title}`)], recordId: question.id },
    ...context.bodyOf(question, Math.min(6, level + 1)),
  ];
};

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const show = options.show ?? 'all';
  const questions = context.graph
    .recordsOf('authority-question')
    .filter((question) => isShown(question, options))
    .filter(({ fields }) => show === 'all' || (fields.answered === undefined) === (show === 'open'));
  if (questions.length === 0)
    return {
      blocks: [
        notice(
          show === 'open' ? 'No question of an authority is open.' : 'There are no questions of authorities.',
        ),
      ],
    };
  return {
    blocks: [
      table(questions, options, context),
      ...(options.form === 'full' ? questions.flatMap((question) => inFull(question, context)) : []),
    ],
  };
};

export const authorityQuestions: View = { name: 'authority-questions', draw };

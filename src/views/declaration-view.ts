import type { Inline, Row } from '../document/model.ts';
import { type DeclarationValue, declarationItems } from '../submission/declaration.ts';
import { cell, nothing, notice, reference, spanning, text } from './cells.ts';
import { type CommonOptions, captionOf, type View } from './view.ts';

/** A line to write on. */
const line = '____________________________';

const valueInlines = (value: DeclarationValue): readonly Inline[] => {
  switch (value.kind) {
    case 'stated':
      return [text(value.text)];
    case 'left out':
      return [text('left out: ', { bold: true }), text(value.reason)];
    case 'missing':
      return [text('missing', { bold: true, tone: 'bad' })];
    case 'open':
      return [text(line)];
  }
  return value satisfies never;
};

const originInlines = (value: DeclarationValue): readonly Inline[] => {
  if (value.kind === 'open') return [nothing('by the person who signs')];
  if (value.kind !== 'stated') return [nothing('none')];
  return [value.record === undefined ? text(value.origin, { tone: 'quiet' }) : reference(value.record)];
};

const draw: View['draw'] = (body, context) => {
  const items = declarationItems(context);
  const missing = items.flatMap((item) => item.values.filter((value) => value.kind === 'missing')).length;
  return {
    blocks: [
      notice(
        `Draft, not signed. This is no declaration of conformity: it becomes one only when a person with the authority to do so has checked it against the law and signed it.${missing > 0 ? ` ${missing} ${missing === 1 ? 'part is' : 'parts are'} missing.` : ''}`,
        missing > 0 ? 'bad' : 'caution',
      ),
      {
        kind: 'table',
        ...captionOf(body as CommonOptions),
        columns: [
          { title: 'Item', width: 8 },
          { title: 'What Annex IV asks for', width: 23 },
          { title: 'Part', width: 17 },
          { title: 'Content', width: 32 },
          { title: 'Drawn from', width: 25 },
        ],
        rows: items.flatMap(({ clause, title, values }) =>
          values.map(
            (value, at): Row => ({
              cells: [
                ...(at === 0
                  ? [
                      spanning(values.length, text(clause, { bold: true })),
                      spanning(values.length, text(title)),
                    ]
                  : []),
                cell(text(value.name)),
                cell(...valueInlines(value)),
                cell(...originInlines(value)),
              ],
            }),
          ),
        ),
        description: 'The items of the EU declaration of conformity, with where each was drawn from.',
      },
    ],
  };
};

export const declarationView: View = { name: 'declaration', draw };

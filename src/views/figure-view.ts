import { sameCharacteristic } from '../evidence/limit-comparison.ts';
import { figuresOf } from './evidence-figures.ts';
import { evidenceOf, missingFigure } from './evidence-view.ts';
import { figureBlock } from './evidence-working.ts';
import { type CommonOptions, captionOf, type View } from './view.ts';

interface Options extends CommonOptions {
  readonly of: string;
  readonly figure: string;
  readonly characteristic?: string;
}

const draw: View['draw'] = (body, context) => {
  const options = body as unknown as Options;
  const { of, figure, characteristic } = options;
  const outcome = evidenceOf(of, ['of'], context);
  if ('problem' in outcome) return { blocks: [], problems: [outcome.problem] };
  if ('block' in outcome) return { blocks: [outcome.block] };
  const { result } = outcome;
  const missing = missingFigure(figure, ['figure'], [result], context);
  if (missing) return { blocks: [], problems: [missing] };
  const names = result.characteristics.map((each) => each.limits.characteristic);
  const chosen = result.characteristics.filter(
    (each) => characteristic === undefined || sameCharacteristic(each.limits.characteristic, characteristic),
  );
  if (chosen.length === 0)
    return {
      blocks: [],
      problems: [
        {
          path: ['characteristic'],
          message: `${of} has no characteristic "${characteristic}"`,
          hint: `Use one of: ${names.join(', ')}.`,
        },
      ],
    };
  const drawn = chosen
    .flatMap((each) => figuresOf(result, each, context.graph))
    .find((each) => each.name === figure);
  return drawn
    ? { blocks: [figureBlock(drawn, captionOf(options))] }
    : {
        blocks: [],
        problems: [
          {
            path: ['characteristic'],
            message: `"${characteristic}" of ${of} has no figure "${figure}"`,
            hint: 'Name another characteristic, or leave it out.',
          },
        ],
      };
};

/** One figure of a record's evidence, by its name. */
export const figureView: View = { name: 'figure', draw };

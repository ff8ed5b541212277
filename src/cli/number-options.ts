import type { Request } from './command.ts';
import { Refusal } from './refusal.ts';

/** The number that an option gives; undefined where it was not given. Refuses what is no number, with an example of one. */
export const numberOption = (request: Request, name: string, example = '0.95'): number | undefined => {
  const written = request.options[name];
  if (written === undefined) return undefined;
  const value = Number(written);
  if (!/^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?$/i.test(written) || !Number.isFinite(value))
    throw new Refusal(
      `--${name} is "${written}", expected a number`,
      written.includes(',') ? 'Write the number with a decimal point.' : `For example: --${name} ${example}`,
    );
  return value;
};

/** A share that lies between 0 and 1, both excluded. */
export const shareOption = (request: Request, name: string): number | undefined => {
  const value = numberOption(request, name);
  if (value !== undefined && !(value > 0 && value < 1))
    throw new Refusal(
      `--${name} is ${request.options[name]}, expected a number between 0 and 1, both excluded`,
      value > 1 && value < 100
        ? `Write ${value} % as ${Number((value / 100).toPrecision(12))}.`
        : value === 1 && name !== 'fraction'
          ? 'No sample shows this with certainty: give a number below 1.'
          : 'Give a number above 0 and below 1.',
    );
  // A bound with so little confidence lies on the wrong side of the estimate; mostly the significance was meant.
  if (value !== undefined && name === 'confidence' && value < 0.5)
    throw new Refusal(
      `--confidence is ${request.options[name]}, expected at least 0.5`,
      `If ${request.options[name]} is the significance, give ${Number((1 - value).toPrecision(12))}.`,
    );
  return value;
};

/** As `shareOption`, for what a command cannot do without. */
export const neededShare = (request: Request, name: string): number => {
  const value = shareOption(request, name);
  if (value === undefined)
    throw new Refusal(`the option --${name} is missing`, `For example: --${name} 0.95`);
  return value;
};

/** Lower and upper limit, as far as they were given; refuses limits that are crossed. */
export const limitOptions = (request: Request): { readonly lower?: number; readonly upper?: number } => {
  const lower = numberOption(request, 'lower');
  const upper = numberOption(request, 'upper');
  if (lower !== undefined && upper !== undefined && lower >= upper)
    throw new Refusal(
      `the lower limit, ${request.options['lower']}, is not below the upper one, ${request.options['upper']}`,
      'Exchange or correct --lower and --upper.',
    );
  return { ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) };
};

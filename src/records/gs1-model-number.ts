import { characterSet82 } from './gs1-application-identifiers.ts';

/** The 32 characters of which the check characters are taken. */
const characterSet32 = '23456789ABCDEFGHJKLMNPQRSTUVWXYZ';

/** Weights from the right: the primes in ascending order. A model number has at most 23 characters before the pair. */
const primes = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83];

/**
 * The two check characters of a global model number, which serves as Basic UDI-DI: values of the characters in set 82,
 * weighted by primes from the right, modulo 1021, in two halves of five bits (GS1 General Specifications, check
 * character calculation for alphanumeric keys). Undefined for more than 23 characters or one outside of the set.
 */
export const modelNumberCheckPair = (text: string): string | undefined => {
  if (text.length > primes.length) return undefined;
  let sum = 0;
  for (let index = 0; index < text.length; index += 1) {
    const value = characterSet82.indexOf(text[index] ?? '');
    if (value < 0) return undefined;
    sum += value * (primes[text.length - 1 - index] ?? 0);
  }
  const rest = sum % 1021;
  return `${characterSet32[rest >> 5]}${characterSet32[rest & 31]}`;
};

/** What is wrong with a global model number, as a clause for a message; undefined where nothing is. */
export const modelNumberProblem = (text: string): string | undefined => {
  if (text.length < 8 || text.length > 25)
    return `has ${text.length} characters, expected 8 to 25: company prefix, model reference and two check characters`;
  if (!/^\d{5}/.test(text)) return 'does not start with the digits of a company prefix';
  const computed = modelNumberCheckPair(text.slice(0, -2));
  if (computed === undefined) return 'holds a character that is not in GS1 character set 82';
  const written = text.slice(-2);
  return written === computed ? undefined : `has the check characters ${written}, computed ${computed}`;
};

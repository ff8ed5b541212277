import { toCanonicalForm, ucum } from '@atomic-ehr/ucum';

/** Ways that people write units as a whole, and the UCUM code that is meant. */
const aliases: Readonly<Record<string, string>> = {
  degC: 'Cel',
  '°F': '[degF]',
  '°': 'deg',
  ml: 'mL',
  l: 'L',
  Nm: 'N.m',
  sec: 's',
  second: 's',
  seconds: 's',
  minute: 'min',
  minutes: 'min',
  hour: 'h',
  hours: 'h',
  day: 'd',
  days: 'd',
  week: 'wk',
  weeks: 'wk',
  month: 'mo',
  months: 'mo',
  year: 'a',
  years: 'a',
  lbf: '[lbf_av]',
  in: '[in_i]',
  inch: '[in_i]',
  psi: '[psi]',
  mmHg: 'mm[Hg]',
  ppm: '[ppm]',
  ppb: '[ppb]',
  '': '1',
};

/** Counted things: UCUM writes them in braces, people do not. */
const counted = 'EU|CFU|device|unit';

/** Signs within a unit that UCUM writes in letters. */
const signs: readonly (readonly [RegExp, string])[] = [
  [/[°º]C|℃/g, 'Cel'],
  [/[\u00b5\u03bc]/g, 'u'],
  [/²/g, '2'],
  [/³/g, '3'],
  [/[·⋅]/g, '.'],
  [/[\u03a9\u2126]/g, 'Ohm'],
  // A width in the denominator, such as N/15 mm for the strength of a seal.
  [/\/(\d+) ?([a-z]+)$/, '/($1.$2)'],
  [new RegExp(`(?<![A-Za-z{[])(?:${counted})(?![A-Za-z}\\]])`, 'g'), '{$&}'],
];

/** The UCUM code of a unit as written. */
export const unitCode = (unit: string): string => {
  const trimmed = unit.trim();
  if (Object.hasOwn(aliases, trimmed)) return aliases[trimmed] ?? trimmed;
  return signs.reduce((code, [sign, letters]) => code.replace(sign, letters), trimmed);
};

/** How the parts of a code are printed, where the common form differs. */
const printed: readonly (readonly [RegExp, string])[] = [
  [/Cel/g, '°C'],
  [/\[degF\]/g, '°F'],
  [/(?<![A-Za-z[{])u(?=(?:[mgLlNsAVWSF]|Pa|Ohm|mol)(?![A-Za-z]))/g, 'µ'],
  [/Ohm/g, 'Ω'],
  [/(?<=[A-Za-z])2(?![\d\w]*\])(?!\d)/g, '²'],
  [/(?<=[A-Za-z])3(?![\d\w]*\])(?!\d)/g, '³'],
  [/\/\((\d+)\.([a-z]+)\)$/, '/$1 $2'],
  [/\.(?=[A-Za-z])/g, '·'],
  [/\{([^}]*)\}/g, '$1'],
  [/^1$/, ''],
];

/** The printed form of a unit, for example `°C`; empty for the unit 1. */
export const unitText = (unit: string): string =>
  printed.reduce((text, [code, form]) => text.replace(code, form), unitCode(unit));

/** A number with its printed unit. */
export const withUnit = (value: string | number, unit: string): string => {
  const text = unitText(unit);
  return text === '' ? `${value}` : `${value} ${text}`;
};

export const isKnownUnit = (unit: string): boolean => {
  try {
    return ucum.validate(unitCode(unit)).valid;
  } catch {
    return false;
  }
};

const annotations = (code: string): string => (code.match(/\{[^}]*\}/g) ?? []).sort().join('');

/**
 * Converter from one unit to another, or undefined where the quantities differ. UCUM takes an annotation such as
 * {EU} for 1; here the annotations must agree, since endotoxin units are not colony-forming units.
 */
export const unitConverter = (from: string, to: string): ((value: number) => number) | undefined => {
  const source = unitCode(from);
  const target = unitCode(to);
  if (source === target) return (value) => value;
  if (annotations(source) !== annotations(target)) return undefined;
  try {
    const at = (value: number): number => ucum.convert(value, source, target);
    // A scale is fixed by two points; units with an offset (°C to K) are affine as well. Logarithmic ones are not.
    const zero = at(0);
    const one = at(1) - zero;
    if (!Number.isFinite(zero) || !Number.isFinite(one)) return undefined;
    const thousand = at(1000);
    if (
      !(Math.abs(thousand - (zero + 1000 * one)) <= 1e-6 * Math.abs(thousand)) ||
      !Number.isFinite(thousand)
    )
      return at;
    // With an offset, the difference of two near values loses digits that a wide span keeps.
    const slope = zero === 0 ? one : (thousand - zero) / 1000;
    // Rounding to 15 digits takes away the noise of binary factors (1 mL is 1000 mm³, not 1000.0000000000001).
    return (value) => Number((zero + value * slope).toPrecision(15));
  } catch {
    return undefined;
  }
};

/** Powers of base units by their UCUM codes, counted things in braces among them; empty for a bare number. */
export type Dimension = Readonly<Record<string, number>>;

/** One part of a unit's code, with the sign before it: `/{device}`. */
const annotated = /([./]|^)([^./(){}]*)\{([^}]*)\}/g;

/**
 * A unit as a multiple of base units. Plane angles are bare numbers, in radians. Undefined for units with an offset or on
 * a scale of their own (°C, pH), arbitrary units, and annotations within brackets.
 */
export const unitInBase = (
  unit: string,
): { readonly factor: number; readonly dimension: Dimension } | undefined => {
  const code = unitCode(unit);
  if (code.includes('{') && code.includes('(')) return undefined;
  try {
    if (code.split(/[./()]/).some((part) => ucum.isArbitraryUnit(part.replace(/[+-]?\d+$/, ''))))
      return undefined;
    const { magnitude, units, specialFunction } = toCanonicalForm(code);
    if (specialFunction || !(magnitude > 0 && Number.isFinite(magnitude))) return undefined;
    const powers = new Map<string, number>();
    for (const { unit: base, exponent } of units)
      if (base !== 'rad') powers.set(base, (powers.get(base) ?? 0) + exponent);
    for (const [, sign, , words] of code.matchAll(annotated)) {
      const counted = `{${words}}`;
      powers.set(counted, (powers.get(counted) ?? 0) + (sign === '/' ? -1 : 1));
    }
    return {
      factor: magnitude,
      dimension: Object.fromEntries([...powers].filter(([, power]) => power !== 0)),
    };
  } catch {
    return undefined;
  }
};

import { ucum } from '@atomic-ehr/ucum';

/** Ways that people write units, and the UCUM code that is meant. */
const aliases: Readonly<Record<string, string>> = {
  '°C': 'Cel',
  '℃': 'Cel',
  degC: 'Cel',
  '°F': '[degF]',
  '°': 'deg',
  µm: 'um',
  μm: 'um',
  µL: 'uL',
  μL: 'uL',
  µg: 'ug',
  μg: 'ug',
  µN: 'uN',
  μN: 'uN',
  ml: 'mL',
  l: 'L',
  mm2: 'mm2',
  'mm²': 'mm2',
  'mm³': 'mm3',
  'cm²': 'cm2',
  'cm³': 'cm3',
  N·m: 'N.m',
  Nm: 'N.m',
  'N/15 mm': 'N/(15.mm)',
  'N/15mm': 'N/(15.mm)',
  sec: 's',
  hour: 'h',
  hours: 'h',
  day: 'd',
  days: 'd',
  year: 'a',
  years: 'a',
  Ohm: 'Ohm',
  Ω: 'Ohm',
  EU: '{EU}',
  CFU: '{CFU}',
  lbf: '[lbf_av]',
  in: '[in_i]',
  inch: '[in_i]',
  psi: '[psi]',
  ppm: '[ppm]',
  '': '1',
};

/** How a unit is printed: the common form rather than the UCUM code where they differ. */
const display: Readonly<Record<string, string>> = {
  Cel: '°C',
  um: 'µm',
  uL: 'µL',
  ug: 'µg',
  mm2: 'mm²',
  mm3: 'mm³',
  cm3: 'cm³',
  'N/(15.mm)': 'N/15 mm',
  'N.m': 'N·m',
  '{EU}': 'EU',
  '{CFU}': 'CFU',
  '1': '',
};

/** The UCUM code of a unit as written. */
export const unitCode = (unit: string): string => {
  const trimmed = unit.trim();
  if (Object.hasOwn(aliases, trimmed)) return aliases[trimmed] ?? trimmed;
  return trimmed.replace(/^(EU|CFU)\/device$/, '{$1}/{device}').replace(/^(EU|CFU)\//, '{$1}/');
};

/** The printed form of a unit, for example `°C`; empty for the unit 1. */
export const unitText = (unit: string): string => {
  const code = unitCode(unit);
  return Object.hasOwn(display, code) ? (display[code] ?? code) : code;
};

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

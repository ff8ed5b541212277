const raised: Readonly<Record<string, string>> = {
  '-': '⁻',
  '0': '⁰',
  '1': '¹',
  '2': '²',
  '3': '³',
  '4': '⁴',
  '5': '⁵',
  '6': '⁶',
  '7': '⁷',
  '8': '⁸',
  '9': '⁹',
};

/**
 * A whole exponent in raised digits: `⁻²`.
 *
 * Source: no formula; notation of powers of ten as in the SI Brochure (BIPM, 9th edition, 2019), chapter 5.
 */
export const raisedDigits = (power: number): string =>
  [...String(power)].map((sign) => raised[sign] ?? sign).join('');

/** A number as programs write it, and nothing else. */
const plain = /^([+-]?)(\d+(?:\.\d+)?)(?:[eE]([+-]?\d{1,3}))?$/;

const timesTen = (sign: string, digits: string, power: number): string =>
  `${sign}${digits === '1' ? '' : `${digits} × `}10${raisedDigits(power)}`;

/** Digits before the point and after it moved so that one stands before it; zeros at the end only where they were written after a point. */
const scientific = (digits: string): readonly [string, number] => {
  const [whole = '', fraction = ''] = digits.split('.');
  if (/[1-9]/.test(whole)) {
    const significant = whole.replace(/0+$/, '');
    const rest = significant.slice(1);
    return [rest === '' ? whole.charAt(0) : `${whole.charAt(0)}.${rest}`, whole.length - 1];
  }
  const lead = fraction.search(/[1-9]/);
  const [first = '', rest] = [fraction[lead], fraction.slice(lead + 1)];
  return [rest === '' ? first : `${first}.${rest}`, -(lead + 1)];
};

/**
 * A number as printed in texts and tables: a true minus sign, and a power of ten in raised digits, `1.2 × 10⁻¹³` for
 * `1.2e-13`. Small ones below 0.0001 and round ones from a million on, whose zeros nobody counts, are written so too.
 * What is no plain number stays as it is. Data for machines keep the plain form (`document/plain-notation.ts`).
 *
 * Source: no formula; notation of powers of ten as in the SI Brochure (BIPM, 9th edition, 2019), chapter 5. From what
 * size on they are used is common practice, no source.
 */
export const printedNumber = (text: string): string => {
  const [match, sign = '', digits = '', exponent] = plain.exec(text) ?? [];
  if (match === undefined) return text;
  const minus = sign === '-' ? '−' : sign;
  if (exponent !== undefined) return timesTen(minus, digits, Number(exponent));
  const isSmall = /^0\.0000\d*[1-9]/.test(digits);
  const isRound = /^[1-9]\d{0,2}0{4,}$/.test(digits) && digits.length >= 7;
  return isSmall || isRound ? timesTen(minus, ...scientific(digits)) : `${minus}${digits}`;
};

const signs = '⁻⁰¹²³⁴⁵⁶⁷⁸⁹';
const plainSigns = '-0123456789';

const printed = new RegExp(
  `^((?:[<≥≤] ?)?)([+−-]?)(?:(\\d+(?:\\.\\d+)?)(?:[ \\u00a0]×[ \\u00a0]10([${signs}]+))?|10([${signs}]+))$`,
);

const lowered = (power: string): string =>
  [...power].map((sign) => plainSigns[signs.indexOf(sign)] ?? '').join('');

/**
 * The form for machines of a text that is a printed number and nothing else: `-3` for `−3`, `1.2e-13` for
 * `1.2 × 10⁻¹³`. Others stay as they are.
 */
export const plainNotation = (text: string): string => {
  const [match, comparison = '', sign = '', digits = '1', power, powerAlone] = printed.exec(text) ?? [];
  if (match === undefined) return text;
  const exponent = power ?? powerAlone;
  return `${comparison}${sign.replace('−', '-')}${digits}${exponent === undefined ? '' : `e${lowered(exponent)}`}`;
};

const superscripts: Readonly<Record<string, string>> = {
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

/** A probability as readers compare it: from 0.01 as written, below as a power of ten, `5 × 10⁻⁴`. */
export const probabilityWords = (value: number, written: string): string => {
  if (value === 0 || value >= 0.01) return written;
  const [digits = '', exponent = ''] = value.toExponential().split('e');
  const power = [...exponent.replace('+', '')].map((sign) => superscripts[sign] ?? sign).join('');
  return digits === '1' ? `10${power}` : `${digits} × 10${power}`;
};

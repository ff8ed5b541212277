import { raisedDigits } from '../evidence/number-text.ts';

/** A probability as readers compare it: from 0.01 as written, below as a power of ten, `5 × 10⁻⁴`. */
export const probabilityWords = (value: number, written: string): string => {
  if (value === 0 || value >= 0.01) return written;
  const [digits = '', exponent = ''] = value.toExponential().split('e');
  const power = raisedDigits(Number(exponent));
  return digits === '1' ? `10${power}` : `${digits} × 10${power}`;
};

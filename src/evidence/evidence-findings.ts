import type { Explanation } from '../findings/explanation.ts';
import type { Finding, Place } from '../findings/finding.ts';

/** Findings that arise while raw data are evaluated. */
export const evidenceCodes = {
  'data-file-missing': {
    title: 'A raw-data file is missing',
    level: 'error',
    explain:
      'The file that the record names is not in the technical file, or its path leads out of it. Without raw data there is no verdict.\n\nPut the file in place, or correct the path: it starts at the folder of the record.',
  },
  'data-column-missing': {
    title: 'A column is not in the raw data',
    level: 'error',
    explain:
      'The record names a column that the raw-data file does not have.\n\nCorrect the name under `data`, without the unit in brackets. The message lists the columns of the file.',
  },
  'data-unit-missing': {
    title: 'Readings have no unit',
    level: 'error',
    explain:
      'Neither the heading of the column (`force [N]`) nor the record gives the unit of the readings, so they cannot be compared with a limit.\n\nAdd the unit in one of the two places.',
  },
  'data-unit-not-convertible': {
    title: 'Readings cannot be converted to the unit of the limit',
    level: 'error',
    explain:
      'The unit of the readings is unknown or measures another quantity than the unit of the acceptance limit.\n\nCorrect the unit; UCUM codes and common forms such as °C and µm are understood.',
  },
  'data-unit-contradicting': {
    title: 'The record and its data name different units',
    level: 'error',
    explain:
      'The heading of the column gives one unit, `data.columns` another. One of the two is wrong, and the readings would be off by the factor between them, often enough to turn a verdict round.\n\nFind out in which unit the readings were taken, and say so in one of the two places. Raw data are not rewritten: where the heading is wrong, record a deviation.',
  },
  'data-cell-blank': {
    title: 'A reading is missing',
    level: 'error',
    explain:
      'A blank cell is no reading, and leaving it out without a word would be an exclusion that nobody declared.\n\nEnter the reading, or exclude the unit with a reason and a deviation.',
  },
  'data-cell-wrong': {
    title: 'A reading cannot be read',
    level: 'error',
    explain:
      'The cell holds neither a number nor one of the words pass, fail, yes, no, not applicable. A comma may be a decimal sign or a sign between thousands: the tool does not guess.\n\nCorrect the cell; the message says what is wrong with it.',
  },
  'exclusion-unknown-unit': {
    title: 'An excluded unit is not in the raw data',
    level: 'error',
    explain:
      'The record excludes a unit that the raw data do not hold. Either the name is wrong and the intended unit is still counted, or the row has been removed, which raw data must not be.\n\nCorrect the name, or restore the row.',
  },
  'method-unknown': {
    title: 'An evidence method is unknown',
    level: 'error',
    explain:
      'The protocol, analysis or test method names a method of evaluation that does not exist.\n\nUse one of the methods that the message lists.',
  },
  'method-inputs-missing': {
    title: 'A method lacks inputs',
    level: 'error',
    explain:
      'The method needs figures that the record or its protocol does not give, for example confidence and reliability.\n\nAdd the fields that the message names.',
  },
} as const satisfies Record<string, Explanation>;

export type EvidenceCode = keyof typeof evidenceCodes;

export const evidenceFinding = (
  code: EvidenceCode,
  place: Place,
  message: string,
  records: readonly string[],
  hint?: string,
): Finding => ({
  code,
  level: evidenceCodes[code].level,
  place,
  message,
  ...(hint ? { hint } : {}),
  records,
  related: [],
});

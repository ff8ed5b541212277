import { printable } from '../writers/report-text/printable.ts';
import type { HouseStyles } from './house-styles.ts';
import { wrap } from './wrap.ts';

/** For each house style that was used: what it gave, and what was added to it. */
export const houseText = (houses: HouseStyles, width: number): string =>
  [...houses.used()]
    .map(([{ file, style }, documents]) => {
      const line = (text: string, indent: string): string => `${wrap(text, width, `${indent}  `, indent)}\n`;
      const added =
        style.missing.length > 0
          ? `Added in the usual look, for it lacks them: ${style.missing.map(printable).join(', ')}.`
          : 'It has all styles of Word that documents use.';
      return [
        '\n',
        line(`House style ${printable(file)}: ${documents.join(', ')}`, ''),
        line(
          style.numbersHeadings
            ? 'Headings have its numbers.'
            : 'Its headings have no numbers; those of the documents were added.',
          '  ',
        ),
        line(added, '  '),
      ].join('');
    })
    .join('');

/** The same for programs. */
export const houseJson = (houses: HouseStyles): readonly unknown[] =>
  [...houses.used()].map(([{ file, sha256, style }, documents]) => ({
    file,
    sha256,
    documents,
    headingNumbers: style.numbersHeadings ? 'house style' : 'plinth',
    added: style.missing,
    leftOut: style.dropped,
  }));

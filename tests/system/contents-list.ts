/** An entry of a contents list. */
export interface ListedHeading {
  readonly number: string;
  readonly title: string;
  /** The page that the list names, from 1. */
  readonly listed: number;
  /** The page on which the heading stands, from 1; 0 where it was not found. */
  readonly found: number;
}

/**
 * The entries of the contents list with the pages on which their headings stand.
 *
 * @param pages the text of each page, as pdftotext lays it out
 */
export const listedHeadings = (pages: readonly string[]): readonly ListedHeading[] =>
  pages
    .slice(0, 3)
    .flatMap((page) => [...page.matchAll(/^\s*(\d+(?:\.\d+)*)\s+(\S.*?)\s*\.{5,}\s*(\d+)\s*$/gm)])
    .map(([, number = '', title = '', page = '']) => ({
      number,
      title,
      listed: Number(page),
      found:
        pages.findIndex(
          (text, index) =>
            index > 1 &&
            text
              .split('\n')
              .some(
                (line) =>
                  line.trim().startsWith(`${number} `) &&
                  line.includes(title.slice(0, 20)) &&
                  !/\.{5}/.test(line),
              ),
        ) + 1,
    }));

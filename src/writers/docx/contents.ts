import { paragraph } from './blocks.ts';
import { contentsLevels, textWidth } from './look.ts';
import type { ContentsEntry, Manuscript } from './manuscript.ts';
import { field, plainRun } from './runs.ts';

/** Headings down to this level are listed. */
const deepestListedLevel = 3;

/** A document with fewer headings than this has no contents list. */
const fewestListedHeadings = 3;

/** Two tables are found without a list, and a list of two may stand alone on a page. */
const fewestListedCaptions = 3;

/** Whether the document is long enough to be given a contents list. */
export function hasContents(manuscript: Manuscript): boolean {
  return manuscript.document.hasContents !== false && listed(manuscript).length >= fewestListedHeadings;
}

/**
 * Writes the contents list and the lists of tables and figures, filled in as Word would fill them.
 *
 * @param dirty asks Word to work the page numbers out when the file is opened
 */
export function writeContents(manuscript: Manuscript, { dirty }: { readonly dirty: boolean }): string {
  const entries = listed(manuscript);
  const widths = contentsLevels.map((_, index) => numberWidth(index + 1, entries));
  const list = contentsField(
    `TOC \\o "1-${deepestListedLevel}" \\h \\z \\u`,
    entries.map((entry) => ({
      style: `TOC${entry.level}`,
      tabs: headingTabs(entry, widths[entry.level - 1] ?? 0, manuscript),
      runs: entryRuns(entry, entry.number === '' ? entry.text : `${entry.number}\t${entry.text}`, manuscript),
    })),
    dirty,
  );
  return (
    paragraph(
      '<w:pStyle w:val="PartTitle"/><w:spacing w:before="0" w:after="200"/>',
      plainRun('Contents', manuscript),
    ) +
    '<w:sdt><w:sdtPr><w:docPartObj><w:docPartGallery w:val="Table of Contents"/><w:docPartUnique/></w:docPartObj></w:sdtPr>' +
    `<w:sdtContent>${list}</w:sdtContent></w:sdt>` +
    captionList('Tables', 'Table', manuscript.tables, manuscript, dirty) +
    captionList('Figures', 'Figure', manuscript.figures, manuscript, dirty)
  );
}

function listed(manuscript: Manuscript): readonly ContentsEntry[] {
  return manuscript.headings.filter((heading) => heading.level <= deepestListedLevel);
}

function captionList(
  title: string,
  label: string,
  entries: readonly ContentsEntry[],
  manuscript: Manuscript,
  dirty: boolean,
): string {
  if (entries.length < fewestListedCaptions) return '';
  const list = contentsField(
    `TOC \\h \\z \\c "${label}"`,
    entries.map((entry) => ({
      style: 'TableofFigures',
      tabs: entryTabs('TableofFigures', 0, manuscript),
      runs: entryRuns(entry, `${entry.number}: ${entry.text}`, manuscript),
    })),
    dirty,
  );
  return paragraph('<w:pStyle w:val="PartTitle"/>', plainRun(title, manuscript)) + list;
}

/** Room for the numbers of a level: some house styles have words in them, "Article IV –". */
const numberWidth = (level: number, entries: readonly ContentsEntry[]): number => {
  const longest = Math.max(
    0,
    ...entries.filter((entry) => entry.level === level).map((entry) => entry.number.length),
  );
  return Math.max(contentsLevels[level - 1]?.number ?? 0, longest * letterWidth + 120);
};

/** Room for a letter of a contents list on the average, at the upper end, in twentieths of a point. */
const letterWidth = 125;

/**
 * Tab stops of an entry whose style is the house style's: Word's own styles have none, for Word writes them into each
 * entry.
 */
function entryTabs(style: string, widthOfNumber: number, { house, paper }: Manuscript): string {
  if (house?.styleIds.has(style) !== true) return '';
  const stops = house.tabs.get(style) ?? [];
  const left = (house.indents.get(style) ?? 0) + widthOfNumber;
  const right = textWidth(paper.portrait);
  const cleared = stops
    .filter(({ kind, position }) => kind !== 'clear' && position !== right && position !== left)
    .map(({ position }) => `<w:tab w:val="clear" w:pos="${position}"/>`);
  const number = widthOfNumber === 0 ? '' : `<w:tab w:val="left" w:pos="${left}"/>`;
  return `<w:tabs>${cleared.join('')}${number}<w:tab w:val="right" w:leader="dot" w:pos="${right}"/></w:tabs>`;
}

/** Tab stops and indents of a heading's entry: in our own style only where its numbers need more room than usual. */
function headingTabs({ level }: ContentsEntry, widthOfNumber: number, manuscript: Manuscript): string {
  const style = `TOC${level}`;
  const own = contentsLevels[level - 1];
  if (own === undefined || manuscript.house?.styleIds.has(style) === true || widthOfNumber <= own.number)
    return entryTabs(style, widthOfNumber, manuscript);
  const start = own.left + widthOfNumber;
  return (
    `<w:tabs><w:tab w:val="clear" w:pos="${own.left + own.number}"/><w:tab w:val="left" w:pos="${start}"/></w:tabs>` +
    `<w:ind w:left="${start}" w:hanging="${widthOfNumber}"/>`
  );
}

function entryRuns(entry: ContentsEntry, text: string, manuscript: Manuscript): string {
  const page = field(`PAGEREF ${entry.bookmark} \\h`, manuscript.pages.get(entry.bookmark) ?? '', manuscript);
  return (
    `<w:hyperlink w:anchor="${entry.bookmark}" w:history="1">${plainRun(text, manuscript)}` +
    `<w:r><w:tab/></w:r>${page}</w:hyperlink>`
  );
}

/** The field starts in the first entry's paragraph and ends in the last one's. */
function contentsField(
  instruction: string,
  entries: readonly { readonly style: string; readonly tabs: string; readonly runs: string }[],
  dirty: boolean,
): string {
  const mark = (type: string, extra = '') => `<w:r><w:fldChar w:fldCharType="${type}"${extra}/></w:r>`;
  const open =
    mark('begin', dirty ? ' w:dirty="true"' : '') +
    `<w:r><w:instrText xml:space="preserve"> ${instruction.replaceAll('"', '&quot;')} </w:instrText></w:r>` +
    mark('separate');
  return entries
    .map((entry, index) =>
      paragraph(
        `<w:pStyle w:val="${entry.style}"/>${entry.tabs}`,
        (index === 0 ? open : '') + entry.runs + (index === entries.length - 1 ? mark('end') : ''),
      ),
    )
    .join('');
}

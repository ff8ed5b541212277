import { paragraph } from './blocks.ts';
import type { ContentsEntry, Manuscript } from './manuscript.ts';
import { field, plainRun } from './runs.ts';

/** Headings down to this level are listed. */
const deepestListedLevel = 3;

/** A document with fewer headings than this has no contents list. */
const fewestListedHeadings = 3;

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
  const list = contentsField(
    `TOC \\o "1-${deepestListedLevel}" \\h \\z \\u`,
    entries.map((entry) => ({
      style: `TOC${entry.level}`,
      runs: entryRuns(entry, `${entry.number}\t${entry.text}`, manuscript),
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
  if (entries.length < 2) return '';
  const list = contentsField(
    `TOC \\h \\z \\c "${label}"`,
    entries.map((entry) => ({
      style: 'TableofFigures',
      runs: entryRuns(entry, `${entry.number}: ${entry.text}`, manuscript),
    })),
    dirty,
  );
  return paragraph('<w:pStyle w:val="PartTitle"/>', plainRun(title, manuscript)) + list;
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
  entries: readonly { readonly style: string; readonly runs: string }[],
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
        `<w:pStyle w:val="${entry.style}"/>`,
        (index === 0 ? open : '') + entry.runs + (index === entries.length - 1 ? mark('end') : ''),
      ),
    )
    .join('');
}

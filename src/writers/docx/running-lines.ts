import type { Story } from '../../house/house-style.ts';
import { paragraph } from './blocks.ts';
import { type Page, textWidth } from './look.ts';
import { cleanXml, type Manuscript } from './manuscript.ts';
import { field, plainRun } from './runs.ts';

/** Longer titles get a line of their own in the running head, longer words of the foot are cut to what matters. */
const longest = { titleBesideNumber: 64, footerWords: 95 } as const;

/** The share of those lengths that fits where a house style's letters may be larger than ours. */
const houseShare = 0.6;

/** The running head: number and revision on the left, title on the right. */
export function headerLines(page: Page, manuscript: Manuscript): string {
  const { document } = manuscript;
  const left = numberAndRevision(manuscript);
  const title = field('TITLE', document.title, manuscript);
  const fitting = longest.titleBesideNumber * (page.landscape ? 1.5 : 1) * shareOf('Header', manuscript);
  const beside = document.title.length <= fitting;
  return beside
    ? runningLine('Header', page, { left, right: title }, manuscript)
    : paragraph('<w:pStyle w:val="Header"/><w:pBdr><w:bottom w:val="nil"/></w:pBdr>', title) +
        runningLine('Header', page, { left, right: plainRun(document.status, manuscript) }, manuscript);
}

/** The running foot: maker, product and status on the left, page of pages on the right, and the caution below. */
export function footerLines(page: Page, manuscript: Manuscript): string {
  const left = plainRun(footerWords(manuscript), manuscript);
  const { caution } = manuscript.document;
  return (
    runningLine('Footer', page, { left, right: pageOfPages(manuscript) }, manuscript) +
    (caution === ''
      ? ''
      : paragraph(
          '<w:pStyle w:val="Footer"/><w:pBdr><w:top w:val="nil"/></w:pBdr>',
          plainRun(caution, manuscript),
        ))
  );
}

/**
 * What a reader must be able to tell from any page, and the house style's own lines do not say: the document's number
 * and revision, and the page. Empty where they say all of it.
 */
export function supplement(
  page: Page,
  shown: { readonly number: boolean; readonly page: boolean },
  manuscript: Manuscript,
): string {
  if (shown.number && shown.page) return '';
  const rest = stateWords(manuscript);
  const left = shown.number
    ? plainRun(rest, manuscript)
    : numberAndRevision(manuscript) + plainRun(rest === '' ? '' : `  ·  ${rest}`, manuscript);
  const right = shown.page ? '' : pageOfPages(manuscript);
  return runningLine('Footer', page, { left, right }, manuscript);
}

/** A running head or foot of the house style, with this document's title, number and the like in it. */
export function storyLines(story: Story, manuscript: Manuscript): string {
  const { document } = manuscript;
  const values: Readonly<Record<string, string>> = {
    title: document.title,
    subject: document.subtitle ?? document.product,
    author: document.organisation,
    company: document.organisation,
    keywords: document.number,
    'document number': document.number,
    revision: document.revision,
    record: document.id,
  };
  return story.pieces
    .map((piece) => (typeof piece === 'string' ? piece : cleanXml(manuscript, values[piece.property] ?? '')))
    .join('');
}

/** Under this name the page map holds the number of pages; no bookmark can have it. */
export const pageCountKey = 'page count';

function numberAndRevision(manuscript: Manuscript): string {
  const { document } = manuscript;
  const number = field('DOCPROPERTY "Document Number"', document.number, manuscript);
  const revision = field('DOCPROPERTY "Revision"', document.revision, manuscript);
  return number + plainRun(', revision ', manuscript) + revision;
}

function pageOfPages(manuscript: Manuscript): string {
  return (
    plainRun('Page ', manuscript) +
    field('PAGE', '1', manuscript) +
    plainRun(' of ', manuscript) +
    field('NUMPAGES', manuscript.pages.get(pageCountKey) ?? '', manuscript)
  );
}

function shareOf(style: 'Header' | 'Footer', { house }: Manuscript): number {
  return house?.styleIds.has(style) ? houseShare : 1;
}

/** A bare day beside "approved" reads as the day of the approval, which stands with the signatures. */
function stateWords({ document: { status, date } }: Manuscript): string {
  return [status, date === '' ? '' : `content as of ${date}`].filter((each) => each !== '').join(', ');
}

function footerWords(manuscript: Manuscript): string {
  const { document } = manuscript;
  const state = stateWords(manuscript);
  const words = [document.organisation, document.product, state].filter((each) => each !== '');
  const joined = words.join('  ·  ');
  return joined.length <= longest.footerWords * shareOf('Footer', manuscript) ? joined : state;
}

/** One line with words at both margins. Tab stops that a house style has elsewhere are taken away. */
function runningLine(
  style: 'Header' | 'Footer',
  page: Page,
  { left, right }: { readonly left: string; readonly right: string },
  { house }: Manuscript,
): string {
  const width = textWidth(page);
  const cleared = (house?.tabs.get(style) ?? [])
    .filter(({ kind, position }) => kind !== 'clear' && position !== width)
    .map(({ position }) => `<w:tab w:val="clear" w:pos="${position}"/>`);
  // A house style may centre its lines; ours has words at both ends.
  const align = house?.styleIds.has(style)
    ? '<w:ind w:left="0" w:right="0" w:firstLine="0"/><w:jc w:val="left"/>'
    : '';
  const tabs = `<w:tabs>${cleared.join('')}<w:tab w:val="right" w:pos="${width}"/></w:tabs>`;
  return paragraph(`<w:pStyle w:val="${style}"/>${tabs}${align}`, `${left}<w:r><w:tab/></w:r>${right}`);
}

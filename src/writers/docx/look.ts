import type { Tone } from '../../document/model.ts';
import type { HouseStyle, PageSetup } from '../../house/house-style.ts';

/** Lengths are in twentieths of a point (Word's dxa), font sizes in half points, colours RRGGBB. */

/** Paper and margins of one orientation. */
export interface Page extends PageSetup {
  readonly landscape: boolean;
}

/** A4 upright. */
export const portrait: Page = {
  width: 11906,
  height: 16838,
  top: 1588,
  bottom: 1304,
  left: 1247,
  right: 1247,
  header: 680,
  footer: 567,
  landscape: false,
};

/** A4 lying. */
export const landscape: Page = {
  width: 16838,
  height: 11906,
  top: 1474,
  bottom: 1191,
  left: 1134,
  right: 1134,
  header: 680,
  footer: 567,
  landscape: true,
};

/** Width between the margins. */
export function textWidth(page: Page): number {
  return page.width - page.left - page.right;
}

/** The pages of a document, upright and lying. */
export interface Pages {
  readonly portrait: Page;
  readonly landscape: Page;
}

/** Room for a running head or foot of ours, away from the edge of the paper and from the text; and for one more line below a foot. */
const room = { edge: 567, text: 737, twoLines: 964 } as const;

/**
 * The pages of a house style: the lying one has the same margins, for the running head needs the same room. Where it
 * has no running head or foot, its margins may be too narrow for ours, and are widened.
 */
export const housePages = (house: HouseStyle | undefined): Pages => {
  if (house?.page === undefined) return { portrait, landscape };
  const setup = { ...house.page };
  if (house.header.portrait === undefined) {
    setup.header = Math.max(setup.header, room.edge);
    setup.top = Math.max(setup.top, setup.header + room.text);
  }
  if (house.footer.portrait === undefined) {
    setup.footer = Math.max(setup.footer, room.edge);
    setup.bottom = Math.max(setup.bottom, setup.footer + room.text);
  } else if (!showsAll(house)) setup.bottom = Math.max(setup.bottom, setup.footer + room.twoLines);
  return {
    portrait: { ...setup, landscape: false },
    landscape: { ...setup, width: setup.height, height: setup.width, landscape: true },
  };
};

/** Whether the running heads and feet of a house style say by themselves what a reader must be able to tell from a page. */
const showsAll = ({ header, footer }: HouseStyle): boolean => {
  const stories = [header.portrait, footer.portrait];
  const says = (what: 'showsNumber' | 'showsPage'): boolean => stories.some((story) => story?.[what]);
  return says('showsPage') && (header.portrait === undefined || says('showsNumber'));
};

export const fonts = { text: 'Calibri', code: 'Courier New' } as const;

/** Body 10.5 pt, tables 9 pt: nothing that must be read is smaller. */
export const sizes = {
  body: 21,
  table: 18,
  code: 18,
  inlineCode: 19,
  note: 18,
  running: 17,
} as const;

/** Colours RRGGBB; a house style may have `auto`, which Word shows as black on white. */
export type Colours = Readonly<Record<keyof typeof ownColours, string>>;

const ownColours = {
  ink: '22292F',
  heading: '243B4A',
  accent: '0B6A70',
  link: '0B6A70',
  quiet: '56626C',
  line: 'C3CCD3',
  lineStrong: '7F909C',
  headFill: 'E4EAEE',
  bandFill: 'F6F8F9',
  codeFill: 'F3F5F6',
  paper: 'FFFFFF',
} as const;

export const colours: Colours = ownColours;

/** Text colours of the meanings; each has a contrast of at least 4.5 on paper and on its own fill (WCAG 2.2, 1.4.3). */
export const toneColours: Readonly<Record<Tone, { readonly text: string; readonly fill: string }>> = {
  good: { text: '17663A', fill: 'EDF6F0' },
  bad: { text: 'A8201A', fill: 'FBEEED' },
  caution: { text: '7A4F00', fill: 'FCF5E3' },
  quiet: { text: '56626C', fill: 'F3F5F6' },
};

/** The levels of a contents list: where their numbers begin, and the room for them, in twentieths of a point. */
export const contentsLevels = [
  { left: 0, number: 567, bold: true, before: 100 },
  { left: 567, number: 680, bold: false, before: 0 },
  { left: 1247, number: 850, bold: false, before: 0 },
] as const;

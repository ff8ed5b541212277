import type { Tone } from '../../document/model.ts';
import type { PageSetup } from '../../house/house-style.ts';

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

/** The pages of a house style: the lying one has the same margins, for the running head needs the same room. */
export const housePages = (setup: PageSetup | undefined): Pages =>
  setup === undefined
    ? { portrait, landscape }
    : {
        portrait: { ...setup, landscape: false },
        landscape: { ...setup, width: setup.height, height: setup.width, landscape: true },
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

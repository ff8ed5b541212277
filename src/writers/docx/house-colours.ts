import type { HouseStyle } from '../../house/house-style.ts';
import { type Colours, colours } from './look.ts';

/**
 * The colours of the styles that a house style does not have: they follow its headings and links, where these can be
 * read on paper and on the fill of a table's title row.
 */
export const houseColours = (house: HouseStyle | undefined): Colours => {
  if (house === undefined) return colours;
  const readable = (colour: string | undefined): string | undefined =>
    colour === 'auto' ||
    (colour !== undefined && [colours.paper, colours.headFill].every((fill) => contrast(colour, fill) >= 4.5))
      ? colour
      : undefined;
  const heading = readable(house.headingColour);
  const link = readable(house.linkColour);
  return {
    ...colours,
    ...(heading === undefined ? {} : { heading, accent: heading, ink: 'auto' }),
    link: link ?? (heading === undefined || heading === 'auto' ? colours.link : heading),
  };
};

/** Contrast of two colours RRGGBB, 1 to 21 (WCAG 2.2, definition of contrast ratio). */
export const contrast = (a: string, b: string): number => {
  const [darker = 0, lighter = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (lighter + 0.05) / (darker + 0.05);
};

/** Relative luminance (WCAG 2.2, definition). */
const luminance = (colour: string): number => {
  const [red = 0, green = 0, blue = 0] = [0, 2, 4].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
};

import { readPng } from './read-png.ts';
import { readSvg } from './read-svg.ts';

/** A picture that a document may show: checked, and written anew without what pictures need not have. */
export type Picture = {
  /** Size in pixels of 1/96 inch. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** What was in the file and is not in the picture, for the reader of the run. */
  readonly leftOut: readonly string[];
} & ({ readonly svg: string } | { readonly png: Uint8Array });

export type PictureOutcome =
  | { readonly ok: true; readonly picture: Picture }
  | { readonly ok: false; readonly reason: string; readonly hint: string };

/** Largest picture that is taken, in bytes. */
const largest = 5 * 1024 * 1024;

/** A file's picture: SVG or PNG, told by its first bytes and not by its name. The bytes are not trusted. */
export const readPicture = (bytes: Uint8Array): PictureOutcome => {
  if (bytes.length > largest)
    return {
      ok: false,
      reason: `it has ${(bytes.length / 1024 / 1024).toFixed(1)} MB, at most ${largest / 1024 / 1024} MB are taken`,
      hint: 'Save it with fewer pixels.',
    };
  if (bytes[0] === 0x89 && bytes[1] === 0x50) return readPng(bytes);
  if (bytes[0] === 0xff && bytes[1] === 0xd8)
    return {
      ok: false,
      reason: 'it is a JPEG picture',
      hint: 'Save it as PNG, or as SVG where it is a drawing.',
    };
  return readSvg(new TextDecoder().decode(bytes));
};

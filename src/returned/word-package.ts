import { strFromU8, unzipSync } from 'fflate';

/** A Word file from outside: its parts, read one by one. */
export interface WordPackage {
  /** Text of a part such as `word/document.xml`; undefined where the file has none. */
  readonly part: (name: string) => string | undefined;
  /** Bytes of a part such as a picture; undefined where the file has none. */
  readonly bytes: (name: string) => Uint8Array | undefined;
}

export type OpenedPackage =
  | { readonly ok: true; readonly package: WordPackage }
  | { readonly ok: false; readonly reason: string; readonly hint: string };

/** What is read of a package, and how much of it at most. */
export interface PackageLimits {
  /** Names of the parts that are opened; all others stay closed. */
  readonly wanted: RegExp;
  /** Bytes of the largest part, unpacked. */
  readonly largestPart: number;
  /** Bytes of all parts that are read, unpacked. */
  readonly largestTotal: number;
}

/**
 * For files that came back: parts that hold words, comments and properties; media, fonts and whatever else a file
 * carries stay closed. A 20,000-row table is 21 MB of XML.
 */
const returnedLimits: PackageLimits = {
  wanted: /^(?:word\/[A-Za-z0-9]+\.xml|docProps\/[a-z]+\.xml)$/,
  largestPart: 200_000_000,
  largestTotal: 1_000_000_000,
};

/** For telling whether a file was edited: its pictures, and what names them, as well. */
export const comparedLimits: PackageLimits = {
  ...returnedLimits,
  wanted:
    /^(?:word\/[A-Za-z0-9]+\.xml|word\/_rels\/[A-Za-z0-9]+\.xml\.rels|word\/media\/[^/]+|docProps\/[a-z]+\.xml)$/,
};

/** Opens a Word file without trusting it: only the parts that are read, none larger than the limits allow. */
export function openWordPackage(bytes: Uint8Array, limits: PackageLimits = returnedLimits): OpenedPackage {
  const { wanted, largestPart, largestTotal } = limits;
  let tooLarge: string | undefined;
  let total = 0;
  let parts: Readonly<Record<string, Uint8Array>>;
  try {
    parts = unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        if (!wanted.test(name)) return false;
        total += originalSize;
        if (originalSize > largestPart || total > largestTotal) tooLarge ??= name;
        return tooLarge === undefined;
      },
    });
  } catch {
    return {
      ok: false,
      reason: 'it is no zip archive, or a broken one',
      hint: 'Give the .docx file as it came back. A .doc file must be saved as .docx first.',
    };
  }
  if (tooLarge !== undefined)
    return {
      ok: false,
      reason: `unpacked, its part ${tooLarge} is larger than ${largestPart / 1_000_000} MB, or all parts together than ${largestTotal / 1_000_000} MB`,
      hint: 'Delete what does not belong into the document and save it again.',
    };
  if (!Object.hasOwn(parts, 'word/document.xml'))
    return {
      ok: false,
      reason: 'it has no part word/document.xml',
      hint: 'Give a .docx file; a .dotx, .xlsx or .zip file is another thing.',
    };
  const bytesOf = (name: string): Uint8Array | undefined =>
    Object.hasOwn(parts, name) ? parts[name] : undefined;
  return {
    ok: true,
    package: {
      part: (name) => {
        const found = bytesOf(name);
        return found && strFromU8(found);
      },
      bytes: bytesOf,
    },
  };
}

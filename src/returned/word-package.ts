import { strFromU8, unzipSync } from 'fflate';

/** A Word file that came back: its parts as text, read one by one. */
export interface WordPackage {
  /** Text of a part such as `word/document.xml`; undefined where the file has none. */
  readonly part: (name: string) => string | undefined;
}

export type OpenedPackage =
  | { readonly ok: true; readonly package: WordPackage }
  | { readonly ok: false; readonly reason: string; readonly hint: string };

/** Larger parts are refused: a 20,000-row table is 21 MB of XML. */
const largestPart = 200_000_000;

/** Parts that hold words, comments and properties; media, fonts and whatever else a file carries stay closed. */
const wanted = /^(?:word\/[A-Za-z0-9]+\.xml|docProps\/[a-z]+\.xml)$/;

/** Opens a Word file without trusting it: only the parts that are read, none above `largestPart` bytes. */
export function openWordPackage(bytes: Uint8Array): OpenedPackage {
  let tooLarge: string | undefined;
  let parts: Readonly<Record<string, Uint8Array>>;
  try {
    parts = unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        if (!wanted.test(name)) return false;
        if (originalSize > largestPart) tooLarge = name;
        return originalSize <= largestPart;
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
      reason: `its part ${tooLarge} is larger than ${largestPart / 1_000_000} MB`,
      hint: 'Delete what does not belong into the document and save it again.',
    };
  if (!Object.hasOwn(parts, 'word/document.xml'))
    return {
      ok: false,
      reason: 'it has no part word/document.xml',
      hint: 'Give a .docx file; a .dotx, .xlsx or .zip file is another thing.',
    };
  return {
    ok: true,
    package: {
      part: (name) => {
        const found = Object.hasOwn(parts, name) ? parts[name] : undefined;
        return found && strFromU8(found);
      },
    },
  };
}

import type { ShownPicture } from '../document/markdown.ts';
import type { DataFiles } from '../evidence/evaluate.ts';
import type { Finding, Place } from '../findings/finding.ts';
import { sha256Hex } from '../graph/digest.ts';
import { type PictureOutcome, readPicture } from '../pictures/picture.ts';
import { nearestName } from '../records/nearest-name.ts';
import { documentFinding } from './document-findings.ts';

/** The path from the root of what a file names by its path from itself; undefined where that lies outside. */
const pathFrom = (file: string, named: string): string | undefined => {
  const steps = file.split('/').slice(0, -1);
  for (const step of named.split('/')) {
    if (step === '..') {
      if (steps.pop() === undefined) return undefined;
    } else if (step !== '.' && step !== '') steps.push(step);
  }
  return steps.join('/');
};

const decoded = (path: string): string => {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
};

/** Pictures are read once for all documents that show them. */
const known = new WeakMap<Uint8Array, { readonly outcome: PictureOutcome; readonly sha256: string }>();

const read = (bytes: Uint8Array) => {
  const found = known.get(bytes) ?? { outcome: readPicture(bytes), sha256: sha256Hex(bytes) };
  known.set(bytes, found);
  return found;
};

/** Base64, in pieces that the argument list of a call can hold. */
const base64 = (bytes: Uint8Array): string => {
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += 8192)
    pieces.push(String.fromCharCode(...bytes.subarray(at, at + 8192)));
  return btoa(pieces.join(''));
};

/**
 * The picture that a text names, from the files of the technical file.
 *
 * @param file the file in which the text stands, from whose folder the path is counted
 * @param report takes what is wrong with it
 */
export const documentPicture = (
  file: string,
  named: string,
  place: Place,
  { files, records }: { readonly files: DataFiles; readonly records: readonly string[] },
  report: (finding: Finding) => void,
): ShownPicture | undefined => {
  const unusable = (reason: string, hint: string): undefined => {
    report(
      documentFinding(
        'image-unusable',
        place,
        `the image "${named}" cannot be shown: ${reason}`,
        records,
        hint,
      ),
    );
    return undefined;
  };
  if (/^[a-z][a-z0-9+.-]*:|^[\\/]/i.test(named))
    return unusable(
      'it does not lie in the technical file',
      'Copy the picture into the technical file and name it by its path from this file.',
    );
  const path = pathFrom(file, decoded(named));
  if (path === undefined)
    return unusable('it lies outside of the technical file', 'Copy the picture into the technical file.');
  const source = files.get(path);
  if (!source) {
    const pictures = [...files.keys()].filter((each) => /\.(svg|png)$/i.test(each));
    const near = nearestName(path, pictures);
    return unusable(
      `there is no file ${path}`,
      near ? `Did you mean "${near}"?` : 'Correct the path; it is counted from the folder of this file.',
    );
  }
  const { outcome, sha256 } = read(source.bytes);
  if (!outcome.ok) return unusable(outcome.reason, outcome.hint);
  const { picture } = outcome;
  for (const part of picture.leftOut)
    report(
      documentFinding(
        'image-part-left-out',
        place,
        `of the image "${named}" ${part} is left out`,
        records,
        'Take it out of the drawing, or draw it as shapes.',
      ),
    );
  const { widthPx, heightPx } = picture;
  return {
    widthPx,
    heightPx,
    source: { file: path, sha256 },
    ...('svg' in picture ? { svg: picture.svg } : { svg: '', png: base64(picture.png) }),
  };
};

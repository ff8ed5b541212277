import type { Document } from '../document/model.ts';
import type { Finding, Place } from '../findings/finding.ts';
import { sha256Hex } from '../graph/digest.ts';
import { readInside } from '../host/read-inside.ts';
import { largestHouseFile } from '../house/house-package.ts';
import { type HouseStyle, type HouseStyleOutcome, readHouseStyle } from '../house/house-style.ts';
import type { Analysis } from '../pipeline.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { documentFinding } from '../views/document-findings.ts';
import { wantedStyles } from '../writers/docx/styles.ts';

/** A house style that was read, under the path by which it was named. */
export interface NamedHouseStyle {
  readonly file: string;
  readonly sha256: string;
  readonly style: HouseStyle;
}

/** The house styles of a run: each file is read once. */
export interface HouseStyles {
  /** The house style of a document, or without one that of the technical file; undefined where none is named, or none can be used. */
  readonly of: (record: RecordOf<'document'> | undefined) => NamedHouseStyle | undefined;
  /** What is wrong with those that were asked for so far. */
  readonly findings: () => readonly Finding[];
  /** Those that were used so far, with the documents in them. */
  readonly used: () => ReadonlyMap<NamedHouseStyle, readonly string[]>;
}

interface Mention {
  readonly file: string;
  readonly place: Place;
  readonly records: readonly string[];
}

/** Names of the entries about the house style among what a document says of its origin. */
export const houseStyleEntry = 'House style';
export const houseDigestEntry = 'House style digest';

/** The file that a document is to take its looks from, and where that is written. */
const mentionOf = (record: RecordOf<'document'> | undefined, { project }: Analysis): Mention | undefined => {
  const own = record?.fields.house_style;
  if (record && own !== undefined)
    return { file: own, place: placeOf(record, 'house_style'), records: [record.id] };
  const file = project.fields.house_style;
  return file === undefined ? undefined : { file, place: project.yaml.place(['house_style']), records: [] };
};

/** Digest of the file that a document's house style is today; undefined where there is none that can be read. */
export const houseDigestNow = (
  record: RecordOf<'document'> | undefined,
  analysis: Analysis,
  folder: string,
): string | undefined => {
  const mention = mentionOf(record, analysis);
  const file = mention && readInside(folder, mention.file, largestHouseFile);
  return file?.ok ? sha256Hex(file.bytes) : undefined;
};

/** Reads the house styles that documents name, from the folder of the technical file. */
export const createHouseStyles = (folder: string, analysis: Analysis): HouseStyles => {
  const read = new Map<string, NamedHouseStyle | undefined>();
  const findings: Finding[] = [];
  const used = new Map<NamedHouseStyle, string[]>();
  const load = ({ file, place, records }: Mention): NamedHouseStyle | undefined => {
    const bytes = readInside(folder, file, largestHouseFile);
    const outcome: HouseStyleOutcome = bytes.ok
      ? readHouseStyle(bytes.bytes, wantedStyles())
      : {
          ok: false,
          reason: bytes.reason,
          hint: 'Name a .docx or .dotx file within the technical file, by its path from plinth.yaml.',
        };
    if (!outcome.ok || !bytes.ok) {
      const { reason, hint } = outcome as Extract<HouseStyleOutcome, { ok: false }>;
      findings.push(
        documentFinding('house-style-unusable', place, `house style "${file}": ${reason}`, records, hint),
      );
      return undefined;
    }
    for (const { what, reason } of outcome.style.dropped)
      findings.push(
        documentFinding(
          'house-style-part-left-out',
          place,
          `house style "${file}": ${what} is left out, for ${reason}`,
          records,
          'Take it out of the house style, or replace it.',
        ),
      );
    return { file, sha256: sha256Hex(bytes.bytes), style: outcome.style };
  };
  return {
    of: (record) => {
      const mention = mentionOf(record, analysis);
      if (!mention) return undefined;
      if (!read.has(mention.file)) read.set(mention.file, load(mention));
      const found = read.get(mention.file);
      if (found && record) used.set(found, [...(used.get(found) ?? []), record.id]);
      return found;
    },
    findings: () => findings,
    used: () => used,
  };
};

/** A document that says which house style it was written in, before the program that wrote it. */
export const withHouseOrigin = (document: Document, house: NamedHouseStyle): Document => {
  const entries = [
    { name: houseStyleEntry, value: house.file },
    { name: houseDigestEntry, value: house.sha256 },
  ];
  const at = document.provenance.findIndex(({ name }) => name === 'Compiled with');
  const place = at < 0 ? document.provenance.length : at;
  return { ...document, provenance: document.provenance.toSpliced(place, 0, ...entries) };
};

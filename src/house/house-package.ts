import { openWordPackage, type PackageLimits, type WordPackage } from '../returned/word-package.ts';
import { type Element, elementsOf, readTree } from './xml-tree.ts';

/** What a part points to. */
export interface HouseRelationship {
  /** Last word of the type: `header`, `image`, `theme`. */
  readonly type: string;
  /** Path in the package, or the address of a thing outside. */
  readonly target: string;
  readonly external: boolean;
}

/** A house style's Word file, opened. */
export interface HousePackage {
  /** Path of the part that holds the text. */
  readonly main: string;
  readonly tree: (path: string) => Element | undefined;
  readonly bytes: (path: string) => Uint8Array | undefined;
  /** By id. */
  readonly relationshipsOf: (path: string) => ReadonlyMap<string, HouseRelationship>;
}

export type OpenedHousePackage =
  | { readonly ok: true; readonly package: HousePackage }
  | { readonly ok: false; readonly reason: string; readonly hint: string };

/** Largest file that is read as a house style, in bytes. */
export const largestHouseFile = 20_000_000;

const limits: PackageLimits = {
  wanted: /\.(?:xml|rels|png|jpe?g|gif|bmp|tiff?|emf|wmf)$|vbaProject\.bin$/i,
  largestPart: 20_000_000,
  largestTotal: 60_000_000,
};

const wordTypes = 'application/vnd.openxmlformats-officedocument.wordprocessingml';

const asDocument = 'Save it in Word as .docx or .dotx, without macros, and name that file.';

/** Opens a .docx or .dotx file as a house style. Files with macros and those of other programs are refused. */
export const openHousePackage = (bytes: Uint8Array): OpenedHousePackage => {
  const opened = openWordPackage(bytes, limits);
  if (!opened.ok)
    return { ok: false, reason: opened.reason, hint: `Name a .docx or .dotx file. ${asDocument}` };
  const file = opened.package;
  const types = partTypes(file);
  if (file.bytes('word/vbaProject.bin') || [...types.values()].some((type) => type.includes('macroEnabled')))
    return { ok: false, reason: 'it holds macros', hint: asDocument };
  const top = readRelationships(file, '');
  const main = [...top.values()].find((each) => each.type === 'officeDocument' && !each.external)?.target;
  const type = main === undefined ? undefined : types.get(main);
  if (
    main === undefined ||
    file.bytes(main) === undefined ||
    (type !== `${wordTypes}.document.main+xml` && type !== `${wordTypes}.template.main+xml`)
  )
    return { ok: false, reason: 'it is no Word document or template', hint: asDocument };
  return {
    ok: true,
    package: {
      main,
      tree: (path) => {
        const xml = file.part(path);
        return xml === undefined ? undefined : readTree(xml);
      },
      bytes: file.bytes,
      relationshipsOf: (path) => readRelationships(file, path),
    },
  };
};

const partTypes = (file: WordPackage): ReadonlyMap<string, string> => {
  const xml = file.part('[Content_Types].xml');
  return new Map(
    elementsOf(xml === undefined ? undefined : readTree(xml), 'ct:Override').map(({ attributes }) => [
      (attributes['PartName'] ?? '').replace(/^\//, ''),
      attributes['ContentType'] ?? '',
    ]),
  );
};

const readRelationships = (file: WordPackage, path: string): ReadonlyMap<string, HouseRelationship> => {
  const slash = path.lastIndexOf('/') + 1;
  const folder = path.slice(0, slash);
  const xml = file.part(`${folder}_rels/${path.slice(slash)}.rels`);
  return new Map(
    elementsOf(xml === undefined ? undefined : readTree(xml), 'rel:Relationship').map(({ attributes }) => {
      const external = attributes['TargetMode']?.toLowerCase() === 'external';
      const target = attributes['Target'] ?? '';
      const type = attributes['Type'] ?? '';
      return [
        attributes['Id'] ?? '',
        {
          type: type.slice(type.lastIndexOf('/') + 1),
          target: external ? target : resolved(folder, target),
          external,
        },
      ];
    }),
  );
};

/** A target as a path from the root of the package. */
const resolved = (folder: string, target: string): string => {
  const steps: string[] = target.startsWith('/') ? [] : folder.split('/').slice(0, -1);
  for (const step of target.split('/')) {
    if (step === '..') steps.pop();
    else if (step !== '' && step !== '.') steps.push(step);
  }
  return steps.join('/');
};

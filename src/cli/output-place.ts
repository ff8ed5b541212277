import { folderFault, holdsTechnicalFile, isInTechnicalFile } from '../host/output-place.ts';
import { Refusal } from './refusal.ts';

/** What the user asked for: a place, and the option that names it. */
interface Place {
  readonly path: string;
  readonly shown: string;
  readonly option: 'output' | 'site';
  /** Whether files in it are replaced and taken away by their names, folders among them. */
  readonly isReplaced?: boolean;
}

const outside = (option: string): string =>
  `Nothing was written. Name a place outside of it with --${option}, such as a folder beside it.`;

/** Refuses to write where the next reading of the technical file would find it. */
export const refuseInside = ({ path, shown, option }: Place, root: string | undefined): void => {
  if (!isInTechnicalFile(path, root)) return;
  throw new Refusal(
    `"${shown}" lies inside of a technical file, where only records and their data belong`,
    outside(option),
  );
};

/** Refuses a folder for outputs that cannot be made, or that would mix with the technical file or replace it. */
export const refuseOutputFolder = (place: Place, root: string): void => {
  refuseInside(place, root);
  if (place.isReplaced && holdsTechnicalFile(place.path, root))
    throw new Refusal(
      `"${place.shown}" holds the technical file, which could be written over`,
      outside(place.option),
    );
  const fault = folderFault(place.path);
  if (fault === undefined) return;
  throw new Refusal(
    `no files can be written to "${place.shown}": ${fault}`,
    `Name another folder with --${place.option}, or check its permissions.`,
  );
};

import {
  type ApplicationIdentifier,
  applicationIdentifiers,
  characterSet82,
} from './gs1-application-identifiers.ts';

/** One element of an identifier: `(17)290531`. */
export interface IdentifierElement {
  readonly application: string;
  readonly value: string;
  /** Of the value, in the text. */
  readonly offset: number;
}

/** What is wrong with the form of an identifier. Check digits and dates are judged elsewhere. */
export interface ElementStringFault {
  /** A clause for a message: `has a lot (10) of 21 characters, at most 20 are allowed`. */
  readonly says: string;
  readonly offset: number;
  readonly length: number;
}

export interface ElementString {
  /** With application identifiers in parentheses, as people read it, or as a scanner hands it over. */
  readonly form: 'readable' | 'scanned';
  readonly elements: readonly IdentifierElement[];
  readonly faults: readonly ElementStringFault[];
}

/** Group separator: what a scanner hands over for the function character between elements. */
const separator = '\u001d';

/** Symbology identifiers that scanners put before GS1 data: GS1-128, DataMatrix, DataBar, QR code, Dot code. */
const symbology = /^\](?:C1|d2|e0|Q3|J1)/;

/** Longest text that is looked at: an identifier holds far less. */
const longest = 500;

/** Reads an identifier in one of its two forms, with everything that is wrong with its form. */
export const readElementString = (text: string): ElementString => {
  const form = /^[\]\d]/.test(text) ? 'scanned' : 'readable';
  if (text.length > longest)
    return {
      form,
      elements: [],
      faults: [
        {
          says: `has ${text.length} characters, at most ${longest} are read`,
          offset: 0,
          length: text.length,
        },
      ],
    };
  const faults: ElementStringFault[] = [];
  const elements = form === 'readable' ? readable(text, faults) : scanned(text, faults);
  if (elements.length === 0 && faults.length === 0)
    faults.push({ says: 'holds no application identifier', offset: 0, length: text.length });
  return { form, elements, faults: [...faults, ...elementFaults(elements), ...pairFaults(elements)] };
};

const readable = (text: string, faults: ElementStringFault[]): readonly IdentifierElement[] => {
  const heads = [...text.matchAll(/\((\d{2,4})\)/g)];
  const before = text.slice(0, heads[0]?.index ?? 0);
  if (before.trim() !== '')
    faults.push({
      says: `starts with "${before.trim().slice(0, 20)}" before the first application identifier`,
      offset: 0,
      length: before.length,
    });
  return heads.map((head, index) => {
    const from = head.index + head[0].length;
    const raw = text.slice(from, heads[index + 1]?.index ?? text.length);
    const value = raw.trim();
    return { application: head[1] ?? '', value, offset: from + raw.indexOf(value) };
  });
};

/** The longest application identifier that the text goes on with. */
const headAt = (text: string, at: number): ApplicationIdentifier | undefined =>
  [4, 3, 2]
    .map((length) => applicationIdentifiers.get(text.slice(at, at + length)))
    .find((row) => row !== undefined);

const scanned = (text: string, faults: ElementStringFault[]): readonly IdentifierElement[] => {
  const elements: IdentifierElement[] = [];
  let at = symbology.exec(text)?.[0].length ?? 0;
  while (at < text.length) {
    if (text[at] === separator) {
      at += 1;
      continue;
    }
    const row = headAt(text, at);
    if (!row) {
      const end = text.indexOf(separator, at);
      const length = (end === -1 ? text.length : end) - at;
      faults.push({
        says: `goes on with "${text.slice(at, at + Math.min(length, 12))}", which starts with no application identifier known to Plinth`,
        offset: at,
        length,
      });
      return elements;
    }
    const from = at + row.application.length;
    const end = text.indexOf(separator, from);
    const rest = end === -1 ? text.length : end;
    const to = row.endsByLength ? Math.min(rest, from + row.most) : rest;
    elements.push({ application: row.application, value: text.slice(from, to), offset: from });
    at = to;
  }
  return elements;
};

const named = ({ meaning, application }: ApplicationIdentifier): string => `${meaning} (${application})`;

const lengthWords = ({ least, most }: ApplicationIdentifier): string =>
  least === most ? `${most} are expected` : most === 1 ? '1 is expected' : `${least} to ${most} are allowed`;

/** Faults of single elements: unknown, too short or too long, characters that do not belong. */
const elementFaults = (elements: readonly IdentifierElement[]): readonly ElementStringFault[] =>
  elements.flatMap(({ application, value, offset }): readonly ElementStringFault[] => {
    const place = { offset, length: value.length };
    const row = applicationIdentifiers.get(application);
    if (!row)
      return [
        { says: `has the application identifier (${application}), which Plinth does not know`, ...place },
      ];
    if (value.length < row.least || value.length > row.most)
      return [
        {
          says: `has a ${named(row)} of ${value.length} ${row.characters === 'digits' ? 'digits' : 'characters'}, ${lengthWords(row)}`,
          ...place,
        },
      ];
    const strange = [...value].find((sign) =>
      row.characters === 'digits' ? !/[0-9]/.test(sign) : !characterSet82.includes(sign),
    );
    if (strange === undefined) return [];
    return [
      {
        says:
          row.characters === 'digits'
            ? `has a ${named(row)} with "${strange}", only digits are allowed`
            : `has a ${named(row)} with ${strange === ' ' ? 'a blank' : `"${strange}"`}, which is not in GS1 character set 82`,
        ...place,
      },
    ];
  });

/** Faults between elements: twice, without what it needs, beside what it excludes. */
const pairFaults = (elements: readonly IdentifierElement[]): readonly ElementStringFault[] => {
  const present = new Set(elements.map(({ application }) => application));
  return elements.flatMap(({ application, value, offset }, index): readonly ElementStringFault[] => {
    const place = { offset, length: value.length };
    const row = applicationIdentifiers.get(application);
    if (!row) return [];
    if (elements.findIndex((other) => other.application === application) < index)
      return [{ says: `has a second ${named(row)}`, ...place }];
    const enemy = row.excludes?.find((other) => present.has(other));
    if (enemy !== undefined) return [{ says: `has a ${named(row)} beside (${enemy})`, ...place }];
    if (row.needs && !row.needs.some((other) => present.has(other)))
      return [{ says: `has a ${named(row)} without (${row.needs[0]})`, ...place }];
    return [];
  });
};

/**
 * Writes an identifier: with parentheses in the given order, or as a scanner hands it over. There, values that end by
 * their length come first, so that few separators are needed (GS1 General Specifications, concatenation).
 */
export const buildElementString = (
  elements: readonly Pick<IdentifierElement, 'application' | 'value'>[],
  form: ElementString['form'],
): string => {
  if (form === 'readable')
    return elements.map(({ application, value }) => `(${application})${value}`).join('');
  const endsByLength = ({ application }: Pick<IdentifierElement, 'application'>): boolean =>
    applicationIdentifiers.get(application)?.endsByLength ?? false;
  const ordered = [...elements.filter(endsByLength), ...elements.filter((element) => !endsByLength(element))];
  return ordered
    .map(
      (element, index) =>
        `${element.application}${element.value}${endsByLength(element) || index === ordered.length - 1 ? '' : separator}`,
    )
    .join('');
};

/**
 * Elements with application identifiers in parentheses that a text holds among other words. A run of them starts with
 * an identifier that is known, goes on without a blank, and ends with the last word.
 */
export const printedElements = (text: string): readonly IdentifierElement[] =>
  [...text.slice(0, 20 * longest).matchAll(/\(\d{2,4}\)[^\s",;]{1,500}/g)].flatMap((match) => {
    const faults: ElementStringFault[] = [];
    return readable(match[0].replace(/\.$/, ''), faults)
      .filter(({ application }) => applicationIdentifiers.has(application))
      .map((element) => ({ ...element, offset: match.index + element.offset }));
  });

import table from './outdated-citations.json' with { type: 'json' };

/** A citation of a section of 21 CFR part 820 that no longer exists. */
export interface OutdatedCitation {
  /** For example `820.30`. */
  readonly section: string;
  readonly offset: number;
  readonly length: number;
  /** What asks for the same subject today, where one place does. */
  readonly successor?: string;
}

/** ISO date from which the sections are gone. */
export const outdatedSince: string = table.meta.in_force;

const live: ReadonlySet<string> = new Set(table.live);
const successors: ReadonlyMap<string, string> = new Map(Object.entries(table.successors));

/** Citations in a text that names the Code of Federal Regulations or uses a section sign; elsewhere 820.30 may be any number. */
export const outdatedCitations = (text: string): readonly OutdatedCitation[] => {
  if (!/CFR|§/.test(text)) return [];
  return [...text.matchAll(/(?<![\d.,])820\.(\d{1,3})(?!\d|\.\d)/g)].flatMap((match) => {
    const number = match[1] ?? '';
    if (live.has(number)) return [];
    const successor = successors.get(number);
    return [
      {
        section: match[0],
        offset: match.index,
        length: match[0].length,
        ...(successor ? { successor } : {}),
      },
    ];
  });
};

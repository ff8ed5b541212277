import type { Explanation } from '../findings/explanation.ts';
import type { Finding, Place } from '../findings/finding.ts';

/** Findings that arise while documents are compiled. */
export const documentCodes = {
  'unknown-view': {
    title: 'A view block has an unknown name',
    level: 'error',
    explain:
      'The info string of a fenced block is `plinth NAME`, and no view has that name. The table would be missing from the document.\n\nCorrect the name; `plinth explain` lists the views.',
  },
  'view-body-wrong': {
    title: 'A view block asks for something that does not exist',
    level: 'error',
    explain:
      'The YAML in the block is broken, or has a field or a value that the view does not know. A misspelt condition would silently show other rows, so it is an error.\n\nCorrect the line shown.',
  },
  'unknown-value': {
    title: 'An inline value does not exist',
    level: 'error',
    explain:
      'The text asks for a number or wording (`:value[VR-09A/lower_bound]`, `:phrase[shelf_life]`, `:count[user-need]`, `:device[name]`) that the technical file does not hold. The document would have a hole where a reader expects a figure.\n\nCorrect the name; the message lists what there is.',
  },
} as const satisfies Record<string, Explanation>;

export type DocumentCode = keyof typeof documentCodes;

export const documentFinding = (
  code: DocumentCode,
  place: Place,
  message: string,
  records: readonly string[],
  hint: string,
): Finding => ({
  code,
  level: documentCodes[code].level,
  place,
  message,
  hint,
  records,
  related: [],
});

import type { Explanation } from '../findings/explanation.ts';
import type { Finding, Place, RelatedPlace } from '../findings/finding.ts';

/** Findings that arise while files are read, before any check runs. */
export const readingCodes = {
  'file-refused': {
    title: 'A file was not read',
    level: 'error',
    explain:
      'The file is larger than 5 MB, is a link that leads out of the technical file, or the system would not open it. What it holds is unknown to every check.\n\nPut the file itself into the technical file, cut it down, or name it under `ignore` in plinth.yaml.',
  },
  'not-utf-8': {
    title: 'A file is not UTF-8 text',
    level: 'error',
    explain:
      'Records are UTF-8 text. Another encoding would turn µ and ° into other signs without notice.\n\nSave the file as UTF-8.',
  },
  'empty-file': {
    title: 'A file is empty',
    level: 'error',
    explain:
      'A Markdown file without content is not a record.\n\nWrite the record (`plinth new TYPE` gives a start), or delete the file.',
  },
  'missing-front-matter': {
    title: 'A Markdown file has no front matter',
    level: 'error',
    explain:
      'Every Markdown file in a technical file is a record and starts with front matter between two lines `---`, with at least id, type, title and status.\n\nAdd the front matter, move the file elsewhere, or name it under `ignore` in plinth.yaml.',
  },
  'broken-front-matter': {
    title: 'Front matter is not valid YAML',
    level: 'error',
    explain:
      'The lines between `---` cannot be read, so nothing of the record is known.\n\nMend the line shown. Put text with a colon or a leading special character in quotes.',
  },
  'merge-conflict': {
    title: 'A merge was not finished',
    level: 'error',
    explain:
      'The file holds the marks that git leaves where two changes meet (`<<<<<<<`, `=======`, `>>>>>>>`). Two versions stand there at once; for the rest of the report the first one was read, and nothing counts as shown by it.\n\nKeep one version, or write a third, and delete the marks.',
  },
  'duplicate-key': {
    title: 'A field stands twice',
    level: 'error',
    explain: 'Two values for one field: nobody can tell which one holds.\n\nKeep one of them.',
  },
  'unknown-type': {
    title: 'A record has an unknown type',
    level: 'error',
    explain:
      'The field `type` names no schema, neither one of the tool nor one in the folder `schemas` beside plinth.yaml.\n\nCorrect the type or add a schema.',
  },
  'unknown-field': {
    title: 'A record has an unknown field',
    level: 'error',
    explain:
      'A misspelt field would be ignored, and with it a link or a limit. So unknown fields are errors.\n\nUse a field of the schema (`plinth new TYPE` lists them).',
  },
  'missing-field': {
    title: 'A required field is missing',
    level: 'error',
    explain: 'The record type needs the field: without it the record cannot be judged.\n\nAdd the field.',
  },
  'wrong-value': {
    title: 'A field has a value of the wrong kind',
    level: 'error',
    explain:
      'The value is not of the kind or form that the schema asks for.\n\nCorrect the value; the message says what is expected.',
  },
  'wrong-prefix': {
    title: 'The id does not start with the prefix of the type',
    level: 'error',
    explain:
      'The prefix tells readers and the tool what kind of record an id names.\n\nRename the record or correct its type.',
  },
  'duplicate-id': {
    title: 'Two records have the same id',
    level: 'error',
    explain:
      'A link to the id could mean either record. Both places are shown; the first in order of path is kept in the graph.\n\nGive one of them a new id.',
  },
  'missing-heading': {
    title: 'A required heading is missing',
    level: 'error',
    explain:
      'The record type asks for certain headings in its body, so that a reader finds in each record what must be there.\n\nAdd the heading and write the section.',
  },
  'schema-unusable': {
    title: 'A schema cannot be used',
    level: 'error',
    explain:
      'A schema in the folder `schemas` beside plinth.yaml is not valid, or takes a type or prefix that exists already. Records of its type cannot be read.\n\nCorrect the schema.',
  },
  'clause-table-unusable': {
    title: 'A clause table of the technical file cannot be used',
    level: 'error',
    explain:
      'A file in the folder `clause-tables` beside plinth.yaml does not hold together: a field is missing or wrong, a clause stands twice, a parent is not there, or the tool has the same edition already. The table is left out, and with it every edition and clause that only it has.\n\nMend the row shown. A table needs key, edition, title, source, provenance and rows with clause and title.',
  },
  'project-file-missing': {
    title: 'plinth.yaml is missing',
    level: 'error',
    explain:
      'plinth.yaml at the root of the technical file holds the device, the wordings, the risk scales and the policies. Without it many checks have nothing to judge by.\n\nRun `plinth start` in an empty folder, or write the file.',
  },
  'data-unreadable': {
    title: 'A raw-data file cannot be read',
    level: 'error',
    explain:
      'The file is missing, empty, too large or not UTF-8, so no verdict can be computed.\n\nPut the file in place and correct the path.',
  },
  'data-malformed': {
    title: 'A raw-data file is not well-formed CSV',
    level: 'error',
    explain:
      'A row has more or fewer values than the heading, a quotation mark is open, or two columns have the same heading. The readings cannot be told apart safely.\n\nMend the row shown.',
  },
} as const satisfies Record<string, Explanation>;

export type ReadingCode = keyof typeof readingCodes;

/** Makes a finding of the reading stage. */
export const readingFinding = (
  code: ReadingCode,
  place: Place,
  message: string,
  more: {
    readonly hint?: string;
    readonly records?: readonly string[];
    readonly related?: readonly RelatedPlace[];
  } = {},
): Finding => ({
  code,
  level: readingCodes[code].level,
  place,
  message,
  ...(more.hint ? { hint: more.hint } : {}),
  records: more.records ?? [],
  related: more.related ?? [],
});

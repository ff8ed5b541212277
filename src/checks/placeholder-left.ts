import type { Place } from '../findings/finding.ts';
import { placeInBody, placeOf } from '../records/record.ts';
import { writingPrompts } from '../records/writing-prompts.ts';
import { defineCheck } from './check.ts';

interface Subject {
  readonly owner: string;
  readonly records: readonly string[];
  readonly placeholders: readonly { readonly text: string; readonly place: () => Place }[];
}

/** Marks by which people leave something for later. */
const marks = /\b(?:TBD|TBC|TODO)\b/g;

/** Texts in angle brackets that "start" has laid down. */
const inBrackets = /^<[^<>]{1,200}>$/;

/** A field that says nothing but that something is still to come. */
const saysLater = /^(?:TBD|TBC|TODO|to be (?:written|decided|determined|confirmed|done)|\?{1,3}|\.{3})\.?$/i;

/** Fields that ask for a reason, where "n/a" says none. */
const asksForReason: ReadonlySet<string> = new Set([
  'alarp',
  'basis',
  'option_reason',
  'rationale',
  'reason',
  'statement',
  'under_reporting',
]);

/** Words of a label, and why a row of a submission is empty. */
const asksForWords: ReadonlySet<string> = new Set(['content', 'empty']);

const saysNothing = /^(?:n\.?\/?a|none|nil|not applicable|[-\u2013\u2014]{1,3})\.?$/i;

/** Words of a particular that only send the reader to the artwork. */
const saysElsewhere =
  /^(?:see|as (?:on|per|in)|as shown on|per|on)\s(?:the\s)?(?:label |final )?(?:artwork|drawing|print)s?\.?$/i;

const isPlaceholder = (text: string, path: Path): boolean =>
  inBrackets.test(text) ||
  saysLater.test(text.trim()) ||
  (path.at(-1) === 'content' && saysElsewhere.test(text.trim())) ||
  (asksForReason.has(String(path.at(-1))) && /^(?:n\/?a|none|-)\.?$/i.test(text.trim())) ||
  (asksForWords.has(String(path.at(-1))) && saysNothing.test(text.trim()));

type Path = readonly (string | number)[];

/** Fields of front matter, at any depth, that hold nothing but a placeholder. */
const fieldsInBrackets = (
  value: unknown,
  path: Path = [],
): readonly { readonly text: string; readonly path: Path }[] => {
  if (typeof value === 'string') return isPlaceholder(value, path) ? [{ text: value, path }] : [];
  if (Array.isArray(value)) return value.flatMap((item, index) => fieldsInBrackets(item, [...path, index]));
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([name, inner]) => fieldsInBrackets(inner, [...path, name]));
};

export const placeholderLeft = defineCheck<Subject>({
  code: 'placeholder-left',
  level: 'warning',
  title: 'A text that somebody must write is still a placeholder',
  basis: 'common practice, no source',
  explain:
    'plinth.yaml or the front matter of a record still holds a text in angle brackets as `plinth start` has laid it down, or a record still holds a remark that something is to be written (`<!-- Write: which lots, made and packed how. -->`), or a mark such as TBD, TBC or TODO, or a field that asks for a reason, such as why a row of a submission is empty, or for the words of a label says "n/a", "none" or a dash, or for the words of a label sends the reader to the artwork.\n\nA placeholder looks like content to every count: the heading is there, the field is filled, and the document is built with nothing said in it. Compiled documents show such a remark as a notice, "To be written"; other remarks are notes of their author and stay out.\n\nWrite the text. Where there is nothing to say, say why.',
  examines: 'wordings of plinth.yaml and texts of records',
  subjects: ({ project, graph }) => {
    const { device, phrases = {} } = project.fields;
    const fields = [
      ...Object.entries(device).map(([name, value]) => ({ path: ['device', name], value })),
      ...Object.entries(phrases).map(([name, value]) => ({ path: ['phrases', name], value })),
    ];
    return [
      ...fields.map(({ path, value }) => ({
        owner: `plinth.yaml, ${path.join('.')},`,
        records: [],
        placeholders:
          typeof value === 'string' && inBrackets.test(value)
            ? [{ text: value, place: () => project.yaml.place(path) }]
            : [],
      })),
      ...[...graph.records.values()]
        .filter((record) => record.status !== 'retired')
        .map((record) => ({
          owner: record.id,
          records: [record.id],
          placeholders: [
            ...fieldsInBrackets(record.fields).map(({ text, path }) => ({
              text,
              place: () => placeOf(record, ...path),
            })),
            ...writingPrompts(record.body).map(({ text, offset }) => ({
              text,
              place: () => placeInBody(record, offset, text.length),
            })),
            ...[...record.body.matchAll(marks)].map(({ 0: text, index }) => ({
              text,
              place: () => placeInBody(record, index, text.length),
            })),
          ],
        })),
    ];
  },
  judge: ({ owner, records, placeholders }) =>
    placeholders.map(({ text, place }) => ({
      place: place(),
      message: `${owner} still has the placeholder ${text.replace(/^<!--\s*|\s*-->$/g, '').replace(/\s+/g, ' ')}`,
      hint: 'Write the text in its place.',
      records,
    })),
});

import { stringify } from 'yaml';
import type { JsonSchema, RecordType } from './schema-set.ts';

const alwaysWritten = new Set(['id', 'type', 'title', 'status', 'approvals']);

const example = (name: string, field: JsonSchema): string =>
  stringify(
    { [name]: field.examples?.[0] ?? '' },
    { flowCollectionPadding: false, lineWidth: 0, collectionStyle: 'flow' },
  )
    .trim()
    .replace(/^\{|\}$/g, '');

const comment = (indent: string, text: string): string =>
  wrapComment(text, 96 - indent.length)
    .map((line) => `${indent}# ${line}\n`)
    .join('');

const wrapComment = (text: string, width: number): string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
};

const emptyValue = (field: JsonSchema): string =>
  field.type === 'array' ? ' []' : field.type === 'string' ? ' ""' : '';

/** Allowed values, where a field or the entries of a list have a fixed set. */
const choices = (field: JsonSchema): string => {
  const values = field.enum ?? field.items?.enum;
  return values === undefined ? '' : ` One of: ${values.join(', ')}.`;
};

const fieldLines = (name: string, field: JsonSchema, required: boolean, indent: string): string => {
  const isGroup = field.type === 'object' && field.properties !== undefined;
  const about =
    comment(
      indent,
      `${field.title ?? name}${required ? '' : ' (optional)'}: ${field.description ?? ''}${choices(field)}`,
    ) + (isGroup && required ? '' : `${indent}# Example: ${example(name, field)}\n`);
  if (!required) return about;
  if (isGroup) return `${about}${indent}${name}:\n${objectLines(field, `${indent}  `)}`;
  return `${about}${indent}${name}:${emptyValue(field)}\n`;
};

const objectLines = (schema: JsonSchema, indent: string): string => {
  const required = new Set(schema.required ?? []);
  const entries = Object.entries(schema.properties ?? {}).filter(
    ([name]) => indent !== '' || !alwaysWritten.has(name),
  );
  const inOrder = [
    ...entries.filter(([name]) => required.has(name)),
    ...entries.filter(([name]) => !required.has(name)),
  ];
  return inOrder.map(([name, field]) => fieldLines(name, field, required.has(name), indent)).join('');
};

/** Remarks in a new record that stand where people must write, see `writingPrompts`. */
const unwritten = [
  '<!-- Write this section. -->',
  '<!-- Say here in one or two sentences what this record states. -->',
] as const;

/**
 * A new record as text: required fields to fill in, optional ones as comments, each with its meaning and an example
 * from the schema. Nothing is filled in that only a person can know.
 */
export const recordTemplate = (type: RecordType, id: string, title: string): string => {
  const head = `id: ${id}\ntype: ${type.type}\ntitle: ${JSON.stringify(title)}\nstatus: draft\n`;
  const sections = type.headings.map((heading) => `\n## ${heading}\n\n${unwritten[0]}\n`).join('');
  return `---\n${head}\n${objectLines(type.schema, '')}---\n${unwritten[1]}\n${sections}`;
};

/** Folder name for records of a type: its plural in lower case with hyphens. */
export const folderOf = (type: RecordType): string =>
  type.plural
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');

/** The id after the highest number that a type has, with at least two digits. */
export const nextId = (type: RecordType, taken: Iterable<string>): string => {
  const numbers = [...taken].flatMap((id) => {
    const match = id.startsWith(`${type.prefix}-`) ? /^\d+/.exec(id.slice(type.prefix.length + 1)) : null;
    return match ? [Number(match[0])] : [];
  });
  return `${type.prefix}-${String(Math.max(0, ...numbers) + 1).padStart(2, '0')}`;
};

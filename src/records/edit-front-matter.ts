import {
  isCollection,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  parseDocument,
  type YAMLMap,
} from 'yaml';
import { parseYaml, splitFrontMatter } from './front-matter.ts';

/** One level of named texts within an entry. */
export type EntryValue = string | Readonly<Record<string, string>>;

/** An entry of a list, its fields in the order in which they are written. Texts are quoted where YAML needs it. */
export type ListEntry = Readonly<Record<string, EntryValue>>;

export type EditOutcome =
  | { readonly ok: true; readonly text: string }
  /** Why the text cannot be edited in place; completes "… cannot be edited: ". */
  | { readonly ok: false; readonly reason: string };

/** Replaces `deleted` characters at `at` by a text with LF line ends. */
interface Splice {
  readonly at: number;
  readonly deleted: number;
  readonly inserted: string;
}

/** The front matter as places: offsets count in the text with LF line ends and without a byte-order mark. */
interface Layout {
  readonly text: string;
  /** Offset of the first character after the opening `---`, and of the closing one. */
  readonly start: number;
  readonly end: number;
  readonly map: YAMLMap;
}

type Planned = readonly Splice[] | string;

const byHand = 'edit it by hand';

/**
 * Sets a field of the front matter to a text, in place: comments, order, quoting and every other byte stay. A field
 * that is missing becomes the last one.
 */
export const setField = (text: string, field: string, value: string): EditOutcome =>
  edit(
    text,
    (layout) => planSet(layout, field, value),
    (fields) => ({ ...fields, [field]: value }),
  );

/**
 * Appends an entry to a list of the front matter, in place: comments, order, indentation, line ends, byte-order mark
 * and every other byte stay. A list that is missing becomes the last field; a list in brackets stays one.
 */
export const appendEntry = (text: string, field: string, entry: ListEntry): EditOutcome =>
  edit(
    text,
    (layout) => planAppend(layout, field, entry),
    (fields) => ({ ...fields, [field]: [...((fields[field] as readonly unknown[] | null) ?? []), entry] }),
  );

/** The edited text is read again: what came out must be what was meant, or nothing is edited. */
const edit = (
  text: string,
  plan: (layout: Layout) => Planned,
  change: (fields: Readonly<Record<string, unknown>>) => unknown,
): EditOutcome => {
  const before = fieldsOf(text);
  if (typeof before === 'string') return { ok: false, reason: before };
  const layout = layoutOf(withLineFeeds(text));
  if (typeof layout === 'string') return { ok: false, reason: layout };
  const splices = plan(layout);
  if (typeof splices === 'string') return { ok: false, reason: splices };
  const edited = applySplices(text, splices);
  const after = fieldsOf(edited);
  return typeof after !== 'string' && JSON.stringify(after) === JSON.stringify(change(before))
    ? { ok: true, text: edited }
    : { ok: false, reason: `its layout is one that an edit in place would spoil; ${byHand}` };
};

const withLineFeeds = (text: string): string => text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');

const fieldsOf = (text: string): Readonly<Record<string, unknown>> | string => {
  const split = splitFrontMatter(withLineFeeds(text));
  if (split === 'missing') return 'it has no front matter';
  if (split === 'unclosed') return 'its front matter is not closed';
  const { value, problems } = parseYaml('', split.yaml, split.yamlLine);
  if (problems[0]) return `line ${problems[0].place.line} cannot be read: ${problems[0].message}`;
  return value !== null && typeof value === 'object' && !Array.isArray(value)
    ? (value as Readonly<Record<string, unknown>>)
    : 'its front matter holds no fields';
};

const layoutOf = (text: string): Layout | string => {
  const split = splitFrontMatter(text);
  if (typeof split === 'string') return `its front matter is ${split}`;
  const { contents } = parseDocument(split.yaml, { version: '1.2', uniqueKeys: false, logLevel: 'error' });
  if (!isMap(contents) || contents.items.length === 0) return 'its front matter holds no fields';
  if (contents.flow) return `its fields stand within braces; ${byHand}`;
  const start = text.indexOf('\n') + 1;
  return { text, start, end: start + split.yaml.length, map: contents as YAMLMap };
};

/**
 * Splices go into the text as it is on disk: its places are found by counting the line ends that were two characters,
 * and what is inserted ends its lines as the file does.
 */
const applySplices = (original: string, splices: readonly Splice[]): string => {
  const lineEnd = /\r\n?|\n/.exec(original)?.[0] ?? '\n';
  const mark = original.startsWith('\uFEFF') ? 1 : 0;
  const places: number[] = [];
  for (let at = mark; at < original.length; at += 1) {
    // The line feed of a pair is no character of its own.
    if (original[at] === '\n' && original[at - 1] === '\r') continue;
    places.push(at);
  }
  places.push(original.length);
  let result = '';
  let done = 0;
  for (const { at, deleted, inserted } of [...splices].sort((a, b) => a.at - b.at)) {
    const from = places[at] ?? original.length;
    result += original.slice(done, from) + inserted.replaceAll('\n', lineEnd);
    done = places[at + deleted] ?? original.length;
  }
  return result + original.slice(done);
};

const pairOf = ({ map }: Layout, field: string): Pair<Node, Node | null> | undefined =>
  map.items.find((pair) => isScalar(pair.key) && (pair.key.source ?? String(pair.key.value)) === field) as
    | Pair<Node, Node | null>
    | undefined;

const startOf = (layout: Layout, node: Node): number => layout.start + (node.range?.[0] ?? 0);
const endOf = (layout: Layout, node: Node): number => layout.start + (node.range?.[1] ?? 0);

const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1;

/** Offset of the line feed that ends the line. */
const lineEndAt = (text: string, at: number): number => {
  const found = text.indexOf('\n', at);
  return found === -1 ? text.length : found;
};

const columnOf = ({ text }: Layout, at: number): number => at - lineStart(text, at);

/** Offset behind the colon of a field without a value, or undefined where the colon does not stand beside its name. */
const behindColon = (layout: Layout, key: Node): number | undefined => {
  const match = /^[ \t]*:/.exec(layout.text.slice(endOf(layout, key), layout.end));
  return match ? endOf(layout, key) + match[0].length : undefined;
};

/** Indentation of the fields: mostly none. */
const fieldIndent = (layout: Layout): string => {
  const first = layout.map.items[0]?.key as Node | undefined;
  return first ? ' '.repeat(columnOf(layout, startOf(layout, first))) : '';
};

const planSet = (layout: Layout, field: string, value: string): Planned => {
  const pair = pairOf(layout, field);
  if (!pair)
    return [
      { at: layout.end, deleted: 0, inserted: `${fieldIndent(layout)}${field}: ${plainOrQuoted(value)}\n` },
    ];
  const node = pair.value;
  if (node === null || (isScalar(node) && node.source === '')) {
    const at = behindColon(layout, pair.key);
    return at === undefined
      ? `the field "${field}" is written in an unusual way; ${byHand}`
      : [{ at, deleted: 0, inserted: ` ${plainOrQuoted(value)}` }];
  }
  if (!isScalar(node)) return `the field "${field}" is a list or a group, not a text; ${byHand}`;
  if (node.type === 'BLOCK_LITERAL' || node.type === 'BLOCK_FOLDED')
    return `the field "${field}" is written as a block of lines; ${byHand}`;
  const at = startOf(layout, node);
  const inserted =
    node.type === 'QUOTE_DOUBLE'
      ? doubleQuoted(value)
      : node.type === 'QUOTE_SINGLE' && !/[\n\t]/.test(value)
        ? `'${value.replaceAll("'", "''")}'`
        : plainOrQuoted(value);
  return [{ at, deleted: endOf(layout, node) - at, inserted }];
};

const planAppend = (layout: Layout, field: string, entry: ListEntry): Planned => {
  const pair = pairOf(layout, field);
  const style = listStyle(layout, pair);
  if (!pair) {
    const name = `${fieldIndent(layout)}${field}:\n`;
    return [{ at: layout.end, deleted: 0, inserted: name + blockEntry(entry, style) }];
  }
  const node = pair.value;
  if (isSeq(node) && node.flow) return planAppendToBrackets(layout, field, node, entry, style, pair.key);
  if (isSeq(node)) {
    const last = node.items.at(-1) as Node | undefined;
    const at = last && behindEntry(layout, last, style.dash);
    return at === undefined
      ? `the list "${field}" is written in an unusual way; ${byHand}`
      : [{ at, deleted: 0, inserted: blockEntry(entry, style) }];
  }
  if (node !== null && !(isScalar(node) && node.source === ''))
    return `the field "${field}" is not a list; ${byHand}`;
  const colon = behindColon(layout, pair.key);
  return colon === undefined
    ? `the field "${field}" is written in an unusual way; ${byHand}`
    : [{ at: lineEndAt(layout.text, colon) + 1, deleted: 0, inserted: blockEntry(entry, style) }];
};

const planAppendToBrackets = (
  layout: Layout,
  field: string,
  list: Node & { readonly items: readonly unknown[] },
  entry: ListEntry,
  style: ListStyle,
  key: Node,
): Planned => {
  const last = list.items.at(-1) as Node | undefined;
  if (last) return [{ at: endOf(layout, last), deleted: 0, inserted: `, ${bracketEntry(entry)}` }];
  const from = startOf(layout, list);
  const brackets = layout.text.slice(from, endOf(layout, list));
  const colon = behindColon(layout, key);
  if (/[\n#]/.test(brackets) || colon === undefined || layout.text.slice(colon, from).trim() !== '')
    return `the empty list "${field}" takes several lines or holds a comment; ${byHand}`;
  return [
    { at: colon, deleted: from - colon + brackets.length, inserted: '' },
    { at: lineEndAt(layout.text, from) + 1, deleted: 0, inserted: blockEntry(entry, style) },
  ];
};

/** Columns in which an entry of a list is written. */
interface ListStyle {
  /** Column of the dash. */
  readonly dash: number;
  /** Blanks between the dash and the first field. */
  readonly gap: number;
  /** Indentation of a group within an entry, from the column of the entry's fields. */
  readonly group: number;
}

/** As the list's last entry is written; else as the first list of the record; else as Plinth writes records. */
const listStyle = (layout: Layout, pair: Pair<Node, Node | null> | undefined): ListStyle => {
  const field = fieldIndent(layout).length;
  const isBlockList = (node: unknown): node is Node & { readonly items: readonly unknown[] } =>
    isSeq(node) && !node.flow && node.items.length > 0;
  const models = [pair, ...layout.map.items].flatMap((each) =>
    each && isBlockList(each.value) ? [each.value] : [],
  );
  const list = models[0];
  if (!list) return { dash: field + 2, gap: 1, group: 2 };
  const entry = list.items.at(-1) as Node;
  const dash = columnOf(layout, startOf(layout, list));
  const usual: ListStyle = { dash, gap: 1, group: 2 };
  if (!isMap(entry) || entry.flow) return usual;
  const first = startOf(layout, entry);
  const before = layout.text.slice(lineStart(layout.text, first), first);
  const gap = /- ( *)$/.exec(before);
  const groups = list.items.flatMap((item) =>
    isMap(item)
      ? item.items.flatMap(({ value }) =>
          isMap(value) && !value.flow && value.items.length > 0
            ? [
                columnOf(layout, startOf(layout, value as Node)) -
                  columnOf(layout, startOf(layout, item as Node)),
              ]
            : [],
        )
      : [],
  );
  return { dash, gap: gap ? 1 + (gap[1]?.length ?? 0) : 1, group: Math.max(1, groups.at(-1) ?? 2) };
};

/** Offset of the first line behind an entry and behind the comments that belong to it. */
const behindEntry = (layout: Layout, entry: Node, dash: number): number | undefined => {
  const { text, end } = layout;
  const last = lastLine(layout, entry);
  if (last === undefined) return undefined;
  let at = text[last - 1] === '\n' ? last : lineEndAt(text, last) + 1;
  // A comment that is indented more than the dash speaks of the entry above it.
  for (let next = at; next < end; ) {
    const line = text.slice(next, lineEndAt(text, next));
    const comment = /^( *)#/.exec(line);
    if (!comment && line.trim() !== '') break;
    next += line.length + 1;
    if (comment && (comment[1]?.length ?? 0) > dash) at = next;
    else if (comment) break;
  }
  return Math.min(at, end);
};

/** Offset of the end of the last value within a node; just behind the line feed where that value is a block of lines. */
const lastLine = (layout: Layout, node: Node): number | undefined => {
  if (!isCollection(node) || node.flow || node.items.length === 0) return endOf(layout, node);
  const last = node.items.at(-1) as Node | Pair<Node, Node | null>;
  if (!('key' in last)) return lastLine(layout, last);
  const { key, value } = last;
  return value === null || (isScalar(value) && value.source === '')
    ? behindColon(layout, key)
    : lastLine(layout, value);
};

const blockEntry = (entry: ListEntry, { dash, gap, group }: ListStyle): string => {
  const inner = ' '.repeat(dash + 1 + gap);
  const lines = Object.entries(entry).flatMap(([name, value]) =>
    typeof value === 'string'
      ? [`${inner}${name}: ${plainOrQuoted(value)}`]
      : [
          `${inner}${name}:`,
          ...Object.entries(value).map(
            ([key, text]) => `${inner}${' '.repeat(group)}${plainOrQuoted(key)}: ${plainOrQuoted(text)}`,
          ),
        ],
  );
  const [first = '', ...rest] = lines;
  return `${' '.repeat(dash)}-${first.slice(dash + 1)}\n${rest.map((line) => `${line}\n`).join('')}`;
};

const bracketEntry = (entry: ListEntry): string =>
  `{ ${Object.entries(entry)
    .map(
      ([name, value]) =>
        `${name}: ${typeof value === 'string' ? plainOrQuoted(value, true) : bracketGroup(value)}`,
    )
    .join(', ')} }`;

const bracketGroup = (group: Readonly<Record<string, string>>): string =>
  `{ ${Object.entries(group)
    .map(([key, text]) => `${plainOrQuoted(key, true)}: ${plainOrQuoted(text, true)}`)
    .join(', ')} }`;

/** Words with letters, digits and the marks of ordinary sentences; a comma parts the entries of a list in brackets. */
const plainWords = /^\p{L}[\p{L}\p{M}\p{N}.,()'/-]*(?: [\p{L}\p{M}\p{N}.,()'/-]+)*$/u;
const isoDate = /^\d{4}-\d{2}-\d{2}$/;
const otherThanText = /^(?:true|false|null|yes|no|on|off|y|n)$/i;

const plainOrQuoted = (text: string, inBrackets = false): string =>
  isoDate.test(text) ||
  (plainWords.test(text) &&
    !otherThanText.test(text) &&
    !digestLike.test(text) &&
    !(inBrackets && text.includes(',')))
    ? text
    : doubleQuoted(text);

/** Some digests are numbers to YAML (12e34…), so all of them are quoted. */
const digestLike = /^[0-9a-f]{64}$/;

/** JSON's quoted strings are YAML's, but for two line ends that YAML 1.1 readers break at. */
const doubleQuoted = (text: string): string =>
  JSON.stringify(text).replace(
    /[\u007f-\u009f\u2028\u2029\ufeff]/g,
    (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );

import { highestPatternCost, patternCost } from './pattern-cost.ts';

/** Largest schema of a user that is read, in characters. */
const largestSchema = 200_000;
/** Deepest nesting of a user's schema. */
const deepestNesting = 30;

const isGroup = (value: unknown): value is Record<string, unknown> =>
  value !== null && typeof value === 'object' && !Array.isArray(value);

const isTextList = (value: unknown): value is readonly string[] =>
  Array.isArray(value) && value.every((item) => typeof item === 'string');

const isText = (value: unknown): value is string => typeof value === 'string' && value !== '';

/**
 * Why a schema that came with a technical file is not used, in words for its author; undefined where nothing speaks
 * against it. Such a schema is untrusted: it could hang or crash the tool, or let fields pass unseen.
 */
export const schemaObjection = (schema: unknown, text: string): string | undefined => {
  if (!isGroup(schema)) return 'it is not a JSON object';
  if (text.length > largestSchema)
    return `it has ${text.length} characters, at most ${largestSchema} are read`;
  if (schema['x-view'] !== undefined)
    return 'x-view describes a view block, and a view needs code: only record types can be added';
  return recordObjection(schema) ?? keywordObjection(schema, '', 0);
};

const recordObjection = (schema: Record<string, unknown>): string | undefined => {
  const about = schema['x-record'];
  if (!isGroup(about)) return 'the annotation x-record with type and prefix is missing';
  if (!isText(about['type']) || !/^[a-z][a-z0-9-]{0,40}$/.test(about['type']))
    return 'x-record.type is not a name in lower case with hyphens, such as field-report';
  if (!isText(about['prefix']) || !/^[A-Z]{2,5}$/.test(about['prefix']))
    return 'x-record.prefix is not two to five capital letters';
  if (about['plural'] !== undefined && !isText(about['plural'])) return 'x-record.plural is not text';
  if (about['headings'] !== undefined && !isTextList(about['headings']))
    return 'x-record.headings is not a list of texts';
  const base = Array.isArray(schema['allOf'])
    ? schema['allOf'].some((part) => isGroup(part) && part['$ref'] === 'record.schema.json')
    : false;
  if (!base)
    return 'the fields that every record has are missing: add "allOf": [{ "$ref": "record.schema.json" }]';
  if (schema['unevaluatedProperties'] !== false)
    return 'misspelt fields would pass unseen: add "unevaluatedProperties": false';
  return about['standing'] === undefined ? undefined : standingObjection(about['standing']);
};

const standingObjection = (standing: unknown): string | undefined => {
  if (!isGroup(standing)) return 'x-record.standing is not a group of fields';
  if (standing['verdict'] !== undefined && typeof standing['verdict'] !== 'boolean')
    return 'x-record.standing.verdict is neither true nor false';
  const sources = standing['shown_by'];
  if (sources === undefined) return undefined;
  if (!Array.isArray(sources)) return 'x-record.standing.shown_by is not a list';
  for (const [index, source] of sources.entries()) {
    const where = `x-record.standing.shown_by[${index + 1}]`;
    if (!isGroup(source)) return `${where} is not a group of fields`;
    if (!isText(source['link'])) return `${where}.link is not the name of a link`;
    if (source['direction'] !== 'in' && source['direction'] !== 'out')
      return `${where}.direction is neither in nor out`;
    if (!isTextList(source['types'])) return `${where}.types is not a list of record types`;
    if (source['need'] !== 'all' && source['need'] !== 'latest')
      return `${where}.need is neither all nor latest`;
    if (source['optional'] !== undefined && typeof source['optional'] !== 'boolean')
      return `${where}.optional is neither true nor false`;
    if (source['pending'] !== undefined && !['planned', 'unplanned'].includes(String(source['pending'])))
      return `${where}.pending is neither planned nor unplanned`;
  }
  return undefined;
};

const linkObjection = (link: unknown, where: string): string | undefined => {
  const isSound =
    isGroup(link) &&
    isTextList(link['to']) &&
    link['to'].length > 0 &&
    isText(link['relation']) &&
    (link['relies'] === undefined || typeof link['relies'] === 'boolean' || isTextList(link['relies'])) &&
    (link['name'] === undefined || isText(link['name'])) &&
    isText(link['inverse']);
  return isSound
    ? undefined
    : `x-link at ${where || 'the top'} needs "to" (a list of record types), "relation" and "inverse" (texts), and may have "relies" (true, false, or the record types for which it holds) and "name" (text)`;
};

/** Keywords that hold names of the user's own rather than keywords. */
const namesBelow = new Set(['properties', 'patternProperties', '$defs', 'definitions', 'dependentSchemas']);
/** Keywords that hold data, in which nothing is a keyword. */
const dataBelow = new Set(['examples', 'enum', 'const', 'default', 'x-record', 'x-link']);

const keywordObjection = (node: unknown, where: string, depth: number): string | undefined => {
  if (depth > deepestNesting) return `it is nested deeper than ${deepestNesting} levels`;
  if (Array.isArray(node)) {
    for (const item of node) {
      const objection = keywordObjection(item, where, depth + 1);
      if (objection) return objection;
    }
    return undefined;
  }
  if (!isGroup(node)) return undefined;
  for (const [keyword, value] of Object.entries(node)) {
    const here = where === '' ? keyword : `${where}/${keyword}`;
    if (keyword === '$ref' && value !== 'record.schema.json')
      return `$ref at ${here} is "${String(value).slice(0, 80)}": only "record.schema.json" may be referred to, nothing is fetched`;
    if (keyword === '$dynamicRef' || keyword === '$dynamicAnchor' || keyword === '$anchor')
      return `${keyword} at ${here} is not supported`;
    if (keyword === 'x-link') {
      const objection = linkObjection(value, where);
      if (objection) return objection;
    }
    if (keyword === 'pattern' && !isCheapPattern(value)) return tooCostly(value, here);
    if (dataBelow.has(keyword)) continue;
    if (namesBelow.has(keyword) && isGroup(value)) {
      for (const [name, child] of Object.entries(value)) {
        if (keyword === 'patternProperties' && !isCheapPattern(name)) return tooCostly(name, here);
        const objection = keywordObjection(child, `${here}/${name}`, depth + 2);
        if (objection) return objection;
      }
      continue;
    }
    const objection = keywordObjection(value, here, depth + 1);
    if (objection) return objection;
  }
  return undefined;
};

const isCheapPattern = (pattern: unknown): boolean =>
  typeof pattern === 'string' && patternCost(pattern) <= highestPatternCost;

const tooCostly = (pattern: unknown, where: string): string =>
  `the pattern "${String(pattern).slice(0, 60)}" at ${where} could take very long: use no repetition within repetition, no look-around, no references to groups, and few open-ended repetitions`;

/** Names of record types in links and standing rules that no schema has. */
export const unknownTypesIn = (
  links: readonly { readonly to: readonly string[] }[],
  standing: { readonly shown_by?: readonly { readonly types: readonly string[] }[] } | undefined,
  known: ReadonlySet<string>,
): readonly string[] => [
  ...new Set(
    [
      ...links.flatMap((rule) => rule.to),
      ...(standing?.shown_by ?? []).flatMap((source) => source.types),
    ].filter((name) => name !== '*' && !known.has(name)),
  ),
];

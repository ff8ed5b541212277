import type { Ajv2020, ErrorObject } from 'ajv/dist/2020.js';
import { nearestName } from './nearest-name.ts';
import { createSchemaCompiler } from './schema-compiler.ts';
import { schemaObjection, unknownTypesIn } from './schema-guard.ts';

/** A schema file as the host hands it over. */
export interface SchemaText {
  /** Name for messages: a path of the user's file, or the tool's own file name. */
  readonly file: string;
  readonly text: string;
  /** The tool's own. Any other schema came with the technical file and is held to the rules for untrusted ones. */
  readonly trusted?: true;
  /** Of the tool's own: what was compiled from this text when the tool was bundled. Without it, it is compiled on use. */
  readonly compiled?: () => Validator;
}

/** Says whether a value meets a schema; after that, `errors` says what is wrong with it. */
export interface Validator {
  (value: unknown): boolean;
  readonly errors?: readonly ErrorObject[] | null;
}

/** A validator that is made when it is first asked: most runs need few of the types. */
const lazily = (compile: () => Validator): Validator => {
  let made: Validator | undefined;
  const validate = (value: unknown): boolean => {
    made ??= compile();
    return made(value);
  };
  return Object.defineProperty(validate, 'errors', { get: () => made?.errors });
};

/** One kind of link that a record type may hold, from the `x-link` annotation. */
export interface LinkRule {
  /** Path in the record; `*` stands for each item of a list. */
  readonly path: readonly string[];
  /** The name of the link in reports: the first field of the path, or the name that the annotation gives. */
  readonly field: string;
  /** Record types that may be linked; `*` means any. */
  readonly to: readonly string[];
  readonly relation: string;
  readonly inverse: string;
  /** Whether the record rests on the content of what it names. Not so for registers that grow, and for events that it tells of. A list names the record types for which it does. */
  readonly relies: boolean | readonly string[];
}

/** Where a record's standing comes from: records reached over one kind of link. */
export interface StandingSource {
  readonly link: string;
  readonly direction: 'in' | 'out';
  readonly types: readonly string[];
  /** `all`: the weakest decides. `latest`: the record that no other one repeats decides. */
  readonly need: 'all' | 'latest';
  /** Without any such record the source says nothing instead of `unplanned`. */
  readonly optional?: boolean;
  /** Standing where no such record exists yet. Default `unplanned`. */
  readonly pending?: 'planned' | 'unplanned';
}

export interface StandingRule {
  /** The record's own verdict decides. */
  readonly verdict?: boolean;
  readonly shown_by?: readonly StandingSource[];
}

export interface RecordType {
  readonly type: string;
  readonly prefix: string;
  readonly title: string;
  readonly plural: string;
  /** Place among the types in lists, from needs to documents. */
  readonly order: number;
  readonly description: string;
  readonly headings: readonly string[];
  readonly standing?: StandingRule;
  readonly links: readonly LinkRule[];
  /** Names of all fields that may stand at the top of the front matter. */
  readonly fields: readonly string[];
  /** Top-level fields that say nothing normative: left out of the digest. */
  readonly informative: ReadonlySet<string>;
  /** Top-level lists whose entries are judged one by one: a faulty one leaves the others as they are. */
  readonly rows: readonly string[];
  readonly validate: Validator;
  /** Names allowed at an object inside the record, for the nearest-name hint. Path as in `LinkRule`. */
  readonly fieldsAt: (path: readonly (string | number)[]) => readonly string[];
  /** The schema as written: titles, descriptions and examples for `new` and `explain`. */
  readonly schema: JsonSchema;
}

export interface JsonSchema {
  readonly [keyword: string]: unknown;
  readonly title?: string;
  readonly description?: string;
  readonly type?: string;
  readonly enum?: readonly unknown[];
  readonly examples?: readonly unknown[];
  readonly required?: readonly string[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly items?: JsonSchema;
}

/** What the YAML body of a view block may hold. */
export interface ViewSchema {
  readonly name: string;
  readonly validate: Validator;
  readonly fieldsAt: RecordType['fieldsAt'];
  readonly schema: JsonSchema;
}

export interface SchemaProblem {
  readonly file: string;
  readonly line?: number;
  readonly column?: number;
  readonly message: string;
}

export interface SchemaSet {
  readonly types: ReadonlyMap<string, RecordType>;
  readonly validateProject: Validator;
  readonly projectSchema: JsonSchema;
  readonly projectFieldsAt: RecordType['fieldsAt'];
  /** What a clause table of the technical file may hold. */
  readonly clauseTable: Pick<ViewSchema, 'validate' | 'fieldsAt'>;
  /** Schemas of view blocks, by the name of the view. */
  readonly views: ReadonlyMap<string, ViewSchema>;
  readonly problems: readonly SchemaProblem[];
}

const linkRulesOf = (schema: JsonSchema): LinkRule[] => {
  const rules: LinkRule[] = [];
  const walk = (node: JsonSchema | undefined, path: readonly string[]): void => {
    if (!node || path.length > 8) return;
    const link = node['x-link'] as
      | { to: string[]; relation: string; inverse: string; relies?: boolean | string[]; name?: string }
      | undefined;
    if (link)
      rules.push({
        path,
        field: link.name ?? path[0] ?? '',
        to: link.to,
        relation: link.relation,
        inverse: link.inverse,
        relies: link.relies ?? true,
      });
    for (const [name, child] of Object.entries(node.properties ?? {})) walk(child, [...path, name]);
    if (node.items) walk(node.items, [...path, '*']);
  };
  walk(schema, []);
  return rules;
};

const schemaAt = (schema: JsonSchema, path: readonly (string | number)[]): JsonSchema | undefined => {
  let node: JsonSchema | undefined = schema;
  for (const step of path) node = typeof step === 'number' ? node?.items : node?.properties?.[step];
  return node;
};

const fieldsAtOf =
  (schema: JsonSchema): RecordType['fieldsAt'] =>
  (path) =>
    Object.keys(schemaAt(schema, path)?.properties ?? {});

/** The root schema merged with what every record has: `allOf` with the base schema becomes one list of properties. */
export const mergeBase = (schema: JsonSchema, base: JsonSchema): JsonSchema => ({
  ...schema,
  required: [...(base.required ?? []), ...(schema.required ?? [])],
  properties: { ...base.properties, ...schema.properties },
});

/** Annotation of a record type, as its schema writes it. */
interface AboutType {
  readonly type: string;
  readonly prefix: string;
  readonly plural?: string;
  /** Place among the types in lists; types without one come last. */
  readonly order?: number;
  readonly headings?: readonly string[];
  readonly standing?: StandingRule;
}

/** The place that a JSON parser names in its message, which differs between its versions. */
const placeOfJsonFault = (text: string, message: string): Pick<SchemaProblem, 'line' | 'column'> => {
  const position = /position (\d{1,9})/.exec(message)?.[1];
  if (position === undefined) return {};
  const before = text.slice(0, Number(position)).split('\n');
  return { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
};

const readType = (schema: JsonSchema, base: JsonSchema, validate: Validator): RecordType => {
  const about = schema['x-record'] as AboutType;
  const merged = mergeBase(schema, base);
  const fields = Object.entries(merged.properties ?? {});
  return {
    type: about.type,
    prefix: about.prefix,
    title: schema.title ?? about.type,
    plural: about.plural ?? schema.title ?? about.type,
    order: typeof about.order === 'number' ? about.order : Number.MAX_SAFE_INTEGER,
    description: schema.description ?? '',
    headings: about.headings ?? [],
    ...(about.standing ? { standing: about.standing } : {}),
    links: linkRulesOf(merged),
    fields: fields.map(([name]) => name),
    informative: new Set(fields.filter(([, field]) => field['x-informative'] === true).map(([name]) => name)),
    rows: fields.filter(([, field]) => field['x-rows'] === true).map(([name]) => name),
    validate,
    fieldsAt: fieldsAtOf(merged),
    schema: merged,
  };
};

/**
 * Reads the schemas: `record` is what all types share, `plinth` describes plinth.yaml, every other one is a view or,
 * by its `x-record` annotation, a record type. A schema that came with the technical file may add a type; one that
 * can't be used is a problem and the rest still works. References are never fetched.
 */
export const readSchemas = (texts: readonly SchemaText[]): SchemaSet => {
  const known = setsByTexts.get(texts) ?? compileSchemas(texts);
  setsByTexts.set(texts, known);
  return known;
};

/** Compiling takes longer than reading a hundred records; the same list is compiled once. */
const setsByTexts = new WeakMap<readonly SchemaText[], SchemaSet>();

const compiledBy = (ajv: Ajv2020, schema: JsonSchema): Validator => ajv.compile(schema);

const compileSchemas = (texts: readonly SchemaText[]): SchemaSet => {
  const ajv = createSchemaCompiler();
  const problems: SchemaProblem[] = [];
  const types = new Map<string, RecordType>();
  const views = new Map<string, ViewSchema>();
  const parsed: { file: string; schema: JsonSchema; trusted: boolean; compiled?: () => Validator }[] = [];
  for (const { file, text, trusted, compiled } of texts) {
    let schema: unknown;
    try {
      schema = JSON.parse(text);
    } catch (error) {
      const { message } = error as Error;
      problems.push({ file, message: `not JSON: ${message}`, ...placeOfJsonFault(text, message) });
      continue;
    }
    const objection = trusted ? undefined : schemaObjection(schema, text);
    if (objection) problems.push({ file, message: objection });
    else if (trusted)
      parsed.push({ file, schema: schema as JsonSchema, trusted, ...(compiled ? { compiled } : {}) });
    else {
      // Without an id of its own, the schema can neither clash with another nor move what references are relative to.
      const { $id: _, ...rest } = schema as JsonSchema;
      parsed.push({ file, schema: rest, trusted: false });
    }
  }
  const byId = (id: string): JsonSchema =>
    parsed.find((each) => each.trusted && each.schema['$id'] === id)?.schema ?? {};
  const base = byId('record.schema.json');
  const project = byId('plinth.schema.json');
  const clauseTable = byId('clause-table.schema.json');
  ajv.addSchema(base);
  const validatorOf = (schema: JsonSchema): Validator =>
    lazily(parsed.find((each) => each.schema === schema)?.compiled ?? (() => compiledBy(ajv, schema)));
  const added: { file: string; type: RecordType }[] = [];
  for (const { file, schema, trusted } of parsed) {
    if (schema === base || schema === project || schema === clauseTable) continue;
    if (typeof schema['x-view'] === 'string') {
      const name = schema['x-view'];
      views.set(name, {
        name,
        validate: validatorOf(schema),
        fieldsAt: fieldsAtOf(schema),
        schema,
      });
      continue;
    }
    const about = schema['x-record'] as AboutType;
    const twin = types.get(about.type) ?? [...types.values()].find((each) => each.prefix === about.prefix);
    if (twin) {
      problems.push({
        file,
        message: `the type ${about.type} or the prefix ${about.prefix} is already taken by the type ${twin.type}`,
      });
      continue;
    }
    try {
      // Another's schema is compiled at once, so that its faults are known.
      const validate = trusted ? validatorOf(schema) : compiledBy(ajv, schema);
      const type = readType(schema, base, validate);
      types.set(type.type, type);
      if (!trusted) added.push({ file, type });
    } catch (error) {
      if (trusted) throw error;
      problems.push({ file, message: (error as Error).message });
    }
  }
  const known = new Set(types.keys());
  for (const { file, type } of added)
    for (const name of unknownTypesIn(type.links, type.standing, known)) {
      const near = nearestName(name, [...known]);
      problems.push({
        file,
        message: `it names the record type "${name}", which no schema has${near ? `; did you mean "${near}"?` : ''}`,
      });
    }
  return {
    types: new Map([...types].sort(([, a], [, b]) => a.order - b.order)),
    validateProject: validatorOf(project),
    projectSchema: project,
    projectFieldsAt: fieldsAtOf(project),
    clauseTable: { validate: validatorOf(clauseTable), fieldsAt: fieldsAtOf(clauseTable) },
    views,
    problems,
  };
};

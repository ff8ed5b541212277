// Writes src/records/fields.ts from schemas/. Run after every change of a schema: npm run fields
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { compile } from 'json-schema-to-typescript';

const root = fileURLToPath(new URL('..', import.meta.url));

/** TypeScript source for the fields of every record type. The base schema is merged in, since the compiler does not know unevaluatedProperties. */
export const generateFields = async () => {
  const read = (name) => JSON.parse(readFileSync(`${root}schemas/${name}`, 'utf8'));
  const base = read('record.schema.json');
  const names = readdirSync(`${root}schemas`)
    .filter((name) => name.endsWith('.schema.json'))
    .sort();
  const typeName = (name) =>
    `${name
      .replace('.schema.json', '')
      .split('-')
      .map((part) => part[0].toUpperCase() + part.slice(1))
      .join('')}Fields`;
  const parts = [];
  const map = [];
  const strip = (node) => {
    if (Array.isArray(node)) return node.map(strip);
    if (node === null || typeof node !== 'object') return node;
    // Titles would each become a named type; examples and bounds say nothing to the compiler.
    const drop = new Set(['title', 'examples', 'minItems', 'maxItems', '$id', '$schema', '$comment']);
    return Object.fromEntries(
      Object.entries(node)
        .filter(([key, value]) => !(drop.has(key) && (key !== 'title' || typeof value === 'string')))
        .map(([key, value]) => [key, strip(value)]),
    );
  };
  for (const name of names) {
    const schema = read(name);
    const about = schema['x-record'];
    const merged = about
      ? {
          type: 'object',
          description: schema.description,
          required: [...base.required, ...schema.required],
          properties: { ...base.properties, ...schema.properties },
          additionalProperties: false,
        }
      : name === 'record.schema.json'
        ? { ...base, additionalProperties: true }
        : schema;
    parts.push(
      await compile(stripProperties(merged, strip), typeName(name), {
        bannerComment: '',
        format: true,
        style: { singleQuote: true, printWidth: 110 },
        unknownAny: true,
        additionalProperties: false,
      }),
    );
    if (about) map.push(`  '${about.type}': ${typeName(name)};`);
  }
  return `// Generated from schemas/ by "npm run fields". Do not edit.\n\n${parts.join('\n')}\n/** Fields by record type. */\nexport interface FieldsByType {\n${map.join('\n')}\n}\n`;
};

const stripProperties = (schema, strip) => {
  const walk = (node) => {
    if (node === null || typeof node !== 'object') return node;
    const { properties, ...rest } = node;
    const cleaned = strip(rest);
    if (rest.items) cleaned.items = walk(rest.items);
    if (rest.additionalProperties && typeof rest.additionalProperties === 'object')
      cleaned.additionalProperties = walk(rest.additionalProperties);
    if (properties)
      cleaned.properties = Object.fromEntries(
        Object.entries(properties).map(([key, value]) => [key, walk(value)]),
      );
    return cleaned;
  };
  return walk(schema);
};

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(`${root}src/records/fields.ts`, await generateFields());

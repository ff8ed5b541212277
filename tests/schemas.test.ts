import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
// @ts-expect-error: a plain script without types
import { generateFields } from '../.ci/generate-fields.mjs';
import { type JsonSchema, readSchemas } from '../src/records/schema-set.ts';
import { ownSchemas, projectRoot } from './support/technical-file.ts';

const set = readSchemas(ownSchemas);

/** Record types of the design: each needs its schema. */
const expectedTypes = [
  'user-need',
  'design-input',
  'design-output',
  'test-method',
  'equipment',
  'verification-protocol',
  'verification-record',
  'validation-protocol',
  'validation-record',
  'analysis',
  'risk',
  'risk-control',
  'benefit-risk',
  'use-specification',
  'use-scenario',
  'failure-modes',
  'surveillance-plan',
  'field-data',
  'risk-plan',
  'risk-review',
  'classification',
  'legal-requirement',
  'standard',
  'material',
  'biological-evaluation',
  'conditioning-plan',
  'claim',
  'deviation',
  'design-plan',
  'authority-question',
  'submission',
  'design-review',
  'design-change',
  'document',
];

const undescribed = (schema: JsonSchema, path: string): string[] => {
  const own = ['title', 'description', 'examples'].filter((keyword) => {
    if (schema['const'] !== undefined) return false;
    if (keyword === 'examples' && schema.type === 'object') return false;
    return schema[keyword] === undefined;
  });
  const inner = [
    ...Object.entries(schema.properties ?? {}).map(([name, field]) => [name, field] as const),
    ...(schema.items ? [['[]', schema.items] as const] : []),
    ...(typeof schema['additionalProperties'] === 'object'
      ? [['*', schema['additionalProperties'] as JsonSchema] as const]
      : []),
  ];
  return [
    ...own.map((keyword) => `${path}: ${keyword}`),
    ...inner.flatMap(([name, field]) => undescribed(field, `${path}/${name}`)),
  ];
};

describe('the schemas of the tool', () => {
  test('describe every record type of the design, and can all be used', () => {
    expect(set.problems).toEqual([]);
    expect([...set.types.keys()].sort()).toEqual([...expectedTypes].sort());
    const prefixes = [...set.types.values()].map((type) => type.prefix);
    expect(new Set(prefixes).size).toBe(prefixes.length);
  });

  test.each(ownSchemas.map(({ file, text }) => [file, JSON.parse(text) as JsonSchema] as const))(
    '%s: every field has a title, a description and an example',
    (file, schema) => {
      expect(
        Object.entries(schema.properties ?? {}).flatMap(([name, field]) =>
          undescribed(field, `${file}/${name}`),
        ),
      ).toEqual([]);
    },
  );

  test.each([...set.types.values()].map((type) => [type.type, type] as const))(
    '%s: its example is valid, and its links name known types',
    (_, type) => {
      const example = (type.schema.examples ?? [])[0];
      expect(example).toBeDefined();
      expect(type.validate(example), JSON.stringify(type.validate.errors)).toBe(true);
      for (const link of type.links)
        for (const target of link.to)
          expect(target === '*' || set.types.has(target), `${type.type}.${link.field}: ${target}`).toBe(true);
      for (const source of type.standing?.shown_by ?? [])
        for (const target of source.types) expect(set.types.has(target)).toBe(true);
    },
  );

  test('examples of single fields are valid where they stand', () => {
    const wrong: string[] = [];
    for (const type of set.types.values()) {
      const whole = (type.schema.examples ?? [])[0] as Record<string, unknown>;
      for (const [name, field] of Object.entries(type.schema.properties ?? {})) {
        const [example] = field.examples ?? [];
        if (example === undefined || name === 'id' || name === 'type') continue;
        if (!type.validate({ ...whole, [name]: example }))
          wrong.push(`${type.type}.${name}: ${JSON.stringify(type.validate.errors?.[0])}`);
      }
    }
    expect(wrong).toEqual([]);
  });

  test('src/records/fields.ts is what "npm run fields" writes', async () => {
    expect(readFileSync(join(projectRoot, 'src/records/fields.ts'), 'utf8')).toBe(await generateFields());
  });
});

import { readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readOwnSchemas, validatorsFile } from '../../src/host/own-files.ts';
import { createSchemaCompiler } from '../../src/records/schema-compiler.ts';
import type { Validator } from '../../src/records/schema-set.ts';

const folder = dirname(process.env['PLINTH_UNDER_TEST'] ?? '');
const texts = readOwnSchemas();
const compiled = createRequire(import.meta.url)(join(folder, validatorsFile(texts))) as Readonly<
  Record<string, Validator>
>;
const compiler = createSchemaCompiler();
for (const { text } of texts) compiler.addSchema(JSON.parse(text));

interface Schema {
  readonly $id: string;
  readonly required?: readonly string[];
  readonly properties?: Readonly<Record<string, { readonly examples?: readonly unknown[] }>>;
}

/** Values of all kinds for a schema: none, its examples, each field left out, each of another kind, one too many, a text that is too long for any pattern. */
const valuesFor = ({ properties = {} }: Schema): readonly unknown[] => {
  const examples = Object.fromEntries(
    Object.entries(properties).flatMap(([name, { examples = [] }]) =>
      examples.slice(0, 1).map((example) => [name, example]),
    ),
  );
  return [
    {},
    [],
    null,
    'text',
    examples,
    { ...examples, added: 1 },
    { ...examples, id: 'X-1'.repeat(500) },
    ...Object.keys(properties).flatMap((name) => {
      const { [name]: _, ...rest } = examples;
      return [rest, ...[17, 'text', [], [{}], {}, true, null].map((value) => ({ ...rest, [name]: value }))];
    }),
  ];
};

describe('the validators of the bundle', () => {
  test('are those of the schemas as they are', () => {
    expect(readdirSync(folder).filter((name) => name.startsWith('validators-'))).toEqual([
      validatorsFile(texts),
    ]);
    expect(validatorsFile(texts.slice(1))).not.toBe(validatorsFile(texts));
  });

  test.each(texts.map(({ file, text }) => [file, JSON.parse(text) as Schema] as const))(
    'say what the schema says: %s',
    (file, schema) => {
      const fresh = compiler.getSchema(schema.$id);
      const made = compiled[file];
      if (!fresh || !made) throw new Error(`there is no validator of ${file}`);
      const values = valuesFor(schema);
      expect(values.length).toBeGreaterThan(6);
      for (const value of values) {
        expect(made(value)).toBe(fresh(value));
        expect(made.errors).toEqual(fresh.errors);
      }
    },
  );
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyse } from '../../src/pipeline.ts';
import { highestPatternCost, longestPatternText, patternCost } from '../../src/records/pattern-cost.ts';
import { readSchemas } from '../../src/records/schema-set.ts';
import { processorMilliseconds } from '../support/processor-time.ts';
import { inputsFrom, ownSchemas } from '../support/technical-file.ts';
import { need, said, withProject } from './read-files.ts';

/** A record type that the tool does not have: a report from the field. */
const fieldReport = {
  title: 'Field report',
  description: 'What users told of the device.',
  'x-record': {
    type: 'field-report',
    prefix: 'FR',
    plural: 'Field reports',
    headings: ['What happened'],
    standing: {
      shown_by: [{ link: 'about', direction: 'out', types: ['user-need'], need: 'all' }],
    },
  },
  type: 'object',
  allOf: [{ $ref: 'record.schema.json' }],
  required: ['about'],
  properties: {
    type: { const: 'field-report' },
    about: {
      title: 'About',
      type: 'array',
      items: {
        type: 'string',
        'x-link': { to: ['user-need'], relation: 'is about', inverse: 'is reported on in' },
      },
    },
    severity: { enum: ['low', 'high'] },
    lot: { type: 'string', pattern: '^L[0-9]{3}$' },
    form: { const: 'F-12' },
  },
  unevaluatedProperties: false,
};

const report = (front = 'about: [UN-01]\n', body = '## What happened\n'): string =>
  `---\nid: FR-01\ntype: field-report\ntitle: A report\nstatus: draft\n${front}---\n${body}`;

const withSchema = (schema: unknown, record: string, path = 'schemas/field-report.schema.json') =>
  analyse(
    inputsFrom(
      withProject({
        'UN-01.md': need('UN-01'),
        'reports/FR-01.md': record,
        [path]: typeof schema === 'string' ? schema : JSON.stringify(schema),
      }),
    ),
    [],
  );

// biome-ignore lint/suspicious/noExplicitAny: schemas are altered against their form here.
type Loose = Record<string, any>;

const altered = (change: (schema: Loose) => void): unknown => {
  const copy: Loose = structuredClone(fieldReport);
  change(copy);
  return copy;
};

describe('a record type that a technical file brings along', () => {
  test('needs no code: links, standing and digests work', () => {
    const analysis = withSchema(fieldReport, report());
    expect(said(analysis.findings)).toEqual([]);
    const { graph, standing, approvals } = analysis;
    expect(graph.record('FR-01')?.sound).toBe(true);
    expect(graph.linksTo('UN-01').map((link) => [link.from, link.relation, link.inverse])).toEqual([
      ['FR-01', 'is about', 'is reported on in'],
    ]);
    expect(standing.get('FR-01')).toMatchObject({ state: 'unplanned', because: ['FR-01', 'UN-01'] });
    expect(approvals.digests.get('FR-01')).toMatch(/^[0-9a-f]{64}$/);
  });

  test.each([
    [
      'an unknown field',
      'about: [UN-01]\nsevertiy: low\n',
      'reports/FR-01.md:7:1 unknown-field: unknown field "severtiy" | Did you mean "severity"?',
    ],
    ['a missing link', '', 'reports/FR-01.md:1:1 missing-field: the field "about" is missing | Add "about".'],
    [
      'a wrong word',
      'about: [UN-01]\nseverity: hihg\n',
      'reports/FR-01.md:7:11 wrong-value: severity is "hihg", expected one of: low, high | Did you mean "high"?',
    ],
    [
      'a wrong form',
      'about: [UN-01]\nlot: L1\n',
      'reports/FR-01.md:7:6 wrong-value: lot is "L1", which does not have the expected form',
    ],
    [
      'another constant',
      'about: [UN-01]\nform: F-13\n',
      'reports/FR-01.md:7:7 wrong-value: form is "F-13", expected "F-12"',
    ],
  ])('is checked like the others: %s', (_, front, expected) => {
    expect(said(withSchema(fieldReport, report(front)).findings)).toEqual([expected]);
  });

  test('has its prefix and headings checked', () => {
    expect(said(withSchema(fieldReport, report().replace('FR-01', 'FE-01')).findings)[0]).toContain(
      'wrong-prefix: the id FE-01 does not start with FR-',
    );
    expect(said(withSchema(fieldReport, report('about: [UN-01]\n', 'Text\n')).findings)).toEqual([
      'reports/FR-01.md:8:1 missing-heading: FR-01 has no heading "What happened" | Add "## What happened" and write the section.',
    ]);
  });
});

describe('a schema that can not be used is one finding, and all else works', () => {
  const about = (schema: Loose): Loose => schema['x-record'];
  const field = (value: unknown) => altered((schema) => Object.assign(schema['properties'], { lot: value }));
  const link = (value: unknown) => field({ type: 'string', 'x-link': value });
  const source = (value: unknown) =>
    altered((schema) => Object.assign(about(schema), { standing: { shown_by: value } }));
  test.each<[string, unknown, string]>([
    ['no JSON', '{ "title": }', 'not JSON'],
    ['no JSON, nested without end', '['.repeat(100_000), 'not JSON'],
    ['null', 'null', 'it is not a JSON object'],
    ['a list', '[]', 'it is not a JSON object'],
    ['no annotation', {}, 'the annotation x-record with type and prefix is missing'],
    [
      'an annotation that is text',
      { 'x-record': 'field-report' },
      'the annotation x-record with type and prefix is missing',
    ],
    [
      'a hostile type',
      altered((s) => Object.assign(about(s), { type: '__proto__' })),
      'x-record.type is not a name',
    ],
    ['a type for any', altered((s) => Object.assign(about(s), { type: '*' })), 'x-record.type is not a name'],
    [
      'a prefix with signs of a pattern',
      altered((s) => Object.assign(about(s), { prefix: '(a+)+' })),
      'x-record.prefix is not',
    ],
    [
      'headings that are no list',
      altered((s) => Object.assign(about(s), { headings: 'One' })),
      'x-record.headings is not a list',
    ],
    [
      'a taken prefix',
      altered((s) => Object.assign(about(s), { prefix: 'UN' })),
      'already taken by the type user-need',
    ],
    [
      'a taken type',
      altered((s) => Object.assign(about(s), { type: 'user-need' })),
      'already taken by the type user-need',
    ],
    [
      'a standing rule that is text',
      altered((s) => Object.assign(about(s), { standing: 'all' })),
      'x-record.standing is not a group',
    ],
    ['a standing source without a link', source([{}]), 'shown_by[1].link is not the name of a link'],
    [
      'a standing source without types',
      source([{ link: 'about', direction: 'in' }]),
      'shown_by[1].types is not a list',
    ],
    [
      'a standing source that turns',
      source([{ link: 'a', direction: 'up', types: [] }]),
      'shown_by[1].direction is neither in nor out',
    ],
    ['a link that is text', link('user-need'), 'x-link at properties/lot needs "to"'],
    ['a link without targets', link({ relation: 'a', inverse: 'b' }), 'x-link at properties/lot needs "to"'],
    [
      'a link to numbers',
      link({ to: [1], relation: 'a', inverse: 'b' }),
      'x-link at properties/lot needs "to"',
    ],
    [
      'a link to an unknown type',
      link({ to: ['user-ned'], relation: 'a', inverse: 'b' }),
      '"user-ned", which no schema has; did you mean "user-need"?',
    ],
    [
      'a reference to the net',
      field({ $ref: 'https://example.org/schema.json' }),
      '$ref at properties/lot/$ref is "https://example.org/schema.json": only',
    ],
    ['a reference to a file', field({ $ref: 'file:///etc/passwd' }), 'nothing is fetched'],
    ['a reference to itself', field({ $ref: '#' }), 'nothing is fetched'],
    [
      'a pattern that hangs',
      field({ type: 'string', pattern: '^(a+)+$' }),
      'the pattern "^(a+)+$" at properties/lot/pattern could take very long',
    ],
    [
      'a pattern in names',
      altered((s) => Object.assign(s, { patternProperties: { '(x+x+)+y': {} } })),
      'could take very long',
    ],
    ['a pattern that is no text', field({ type: 'string', pattern: 7 }), 'could take very long'],
    ['a broken pattern', field({ type: 'string', pattern: '[z-a]' }), 'Invalid regular expression'],
    ['an unknown keyword', field({ typ: 'string' }), 'unknown keyword: "typ"'],
    ['properties that are a list', altered((s) => Object.assign(s, { properties: [] })), 'schema is invalid'],
    [
      'required that is no list',
      altered((s) => Object.assign(s, { required: 'about' })),
      'schema is invalid',
    ],
    [
      'fields of all records left out',
      altered((s) => {
        delete s['allOf'];
      }),
      'add "allOf"',
    ],
    [
      'misspelt fields let through',
      altered((s) => {
        delete s['unevaluatedProperties'];
      }),
      'add "unevaluatedProperties": false',
    ],
    ['a view', altered((s) => Object.assign(s, { 'x-view': 'records' })), 'only record types can be added'],
    [
      'too large',
      altered((s) => Object.assign(s, { description: 'a'.repeat(300_000) })),
      'at most 200000 are read',
    ],
    [
      'nested without end',
      altered((s) => {
        let node: Record<string, unknown> = s['properties'];
        for (let i = 0; i < 60; i += 1) {
          const next = { type: 'object', properties: {} };
          node['a'] = next;
          node = next.properties;
        }
      }),
      'nested deeper',
    ],
    [
      'another dialect',
      altered((s) => Object.assign(s, { $schema: 'http://json-schema.org/draft-07/schema#' })),
      'no schema with key or ref',
    ],
  ])('%s', (_, schema, words) => {
    const analysis = withSchema(schema, '---\nid: FR-01\n---\n');
    const own = said(analysis.findings).filter((line) => line.includes('schema-unusable'));
    expect(own).toHaveLength(1);
    expect(own[0]).toContain('schemas/field-report.schema.json:');
    expect(own[0]).toContain(words);
    expect(own[0]).toContain('| Correct the schema');
    expect(analysis.graph.record('UN-01')?.sound).toBe(true);
  });

  test('the place of a slip in the JSON is shown', () => {
    const line = said(withSchema('{\n  "title": "x",,\n}', report()).findings)[0] ?? '';
    expect(line).toMatch(/^(reports|schemas)/);
    const own = withSchema('{\n  "title": "x",,\n}', report()).findings.find(
      (each) => each.code === 'schema-unusable',
    );
    expect(own?.place).toMatchObject({ line: 2, column: 16 });
  });

  test('a schema can not put itself in place of one of the tool, whatever it calls itself', () => {
    for (const $id of [
      'record.schema.json',
      'plinth.schema.json',
      'user-need.schema.json',
      'https://example.org/x/y.json',
    ])
      expect(said(withSchema({ ...fieldReport, $id }, report()).findings)).toEqual([]);
    expect(
      said(
        withSchema({ ...fieldReport, $id: 'record.schema.json' }, report('about: [UN-01]\nsevertiy: low\n'))
          .findings,
      ),
    ).toHaveLength(1);
  });

  test('a file elsewhere is no schema', () => {
    for (const path of [
      'schema/field-report.schema.json',
      'schemas/deep/field-report.schema.json',
      'schemas/field-report.json',
    ])
      expect(said(withSchema(fieldReport, report(), path).findings)[0]).toContain('unknown-type');
  });
});

describe("the tool's own schemas", () => {
  test('compile, are told apart by type and prefix, and accept their own examples', () => {
    const { types, views, problems, validateProject } = readSchemas(ownSchemas);
    expect(problems).toEqual([]);
    expect(types.size).toBeGreaterThan(15);
    expect(views.size).toBeGreaterThan(5);
    expect(validateProject({ device: { name: 'a', maker: 'b' } })).toBe(true);
    for (const type of types.values()) {
      const examples = type.schema.examples ?? [];
      expect(examples.length, type.type).toBeGreaterThan(0);
      for (const example of examples)
        expect(type.validate(example), `${type.type}: ${JSON.stringify(type.validate.errors)}`).toBe(true);
    }
    for (const view of views.values()) view.validate({});
  });
});

describe('the cost of a pattern', () => {
  test.each([
    '^[A-Z]{2,5}-[A-Za-z0-9][A-Za-z0-9.-]{0,31}$',
    '^\\d{4}-\\d{2}-\\d{2}$',
    '^[0-9a-f]{64}$',
    '^(low|high)$',
    'plain',
    '^[a-z]+-[a-z]+$',
    '^(?:ab){3}$',
    '^\\p{Lu}\\p{Ll}*$',
  ])('is low for what schemas need: %s', (pattern) => {
    expect(patternCost(pattern)).toBeLessThanOrEqual(highestPatternCost);
  });

  test.each([
    '^(a+)+$',
    '(a*)*',
    '^(a|a)*$',
    '^(a|aa)+$',
    '([a-zA-Z]+)*',
    '(x+x+)+y',
    '^(.*a){20}$',
    'a*a*a*a*b',
    '^(a?){30}a{30}$',
    `${'a?'.repeat(40)}${'a'.repeat(40)}`,
    '^(?=a)a$',
    '(?<!b)a',
    '^(a)\\1$',
    '(?<n>a)\\k<n>',
    '(((((((((((((((a)))))))))))))))',
    'a'.repeat(400),
    '(a',
    '[a',
    'a)',
  ])('is out of bounds for what hangs or can not be told: %s', (pattern) => {
    expect(patternCost(pattern)).toBeGreaterThan(highestPatternCost);
  });

  test('bounds the time that matching takes', () => {
    const piece = fc.constantFrom(
      'a',
      'b',
      '[ab]',
      '.',
      '(a|b)',
      '(?:ab)',
      'a*',
      'a+',
      '[ab]*',
      '(a|ab)',
      'a?',
      'b{2,5}',
      '$',
      '^',
      '(a+)',
      '(a*)?',
    );
    let tried = 0;
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 8 }), (pieces) => {
        const pattern = pieces.join('');
        if (patternCost(pattern) > highestPatternCost) return;
        tried += 1;
        const start = processorMilliseconds();
        new RegExp(`${pattern}$`, 'u').test(`${'a'.repeat(longestPatternText - 1)}c`);
        expect(processorMilliseconds() - start).toBeLessThan(3_000);
      }),
      { seed: 20260727, numRuns: 400 },
    );
    expect(tried).toBeGreaterThan(50);
  });
});

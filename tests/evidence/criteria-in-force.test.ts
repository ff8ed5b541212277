import { describe, expect, test } from 'vitest';
import { analyse } from '../../src/pipeline.ts';
import { criteriaOrigin } from '../../src/records/project.ts';
import { inputsFrom } from '../support/technical-file.ts';

const criteria = (limit: string): string => `
  severities: [{ class: S1, name: discomfort }]
  probability: { denominator: per use, bands: [{ band: O1, below: 0.001 }, { band: O2 }] }
  acceptable: { S1: ${limit} }
`;
const yaml = 'device: { name: Granule applicator, maker: Harrow Lane Instruments }\n';
const policy = (reliability: string): string =>
  `sampling_policy: [{ severity: S1, confidence: 0.95, reliability: ${reliability} }]\n`;
const plan = (id: string, status: string, limit: string, more = ''): readonly [string, string] => [
  `risks/${id}.md`,
  `---\nid: ${id}\ntype: risk-plan\ntitle: Plan\nstatus: ${status}\ndate: 2025-10-08\nscope: The device.\ncriteria:${criteria(limit)}${more}---\n## Responsibilities\n\nThe team.\n\n## Review\n\nYearly.\n`,
];

const projectOf = (plinth: string, ...plans: readonly (readonly [string, string])[]) =>
  analyse(inputsFrom(new Map([['plinth.yaml', plinth], ...plans])), []).project;

describe('the criteria in force', () => {
  test('are those of plinth.yaml without a plan, or with a plan that is retired or cannot be read', () => {
    const own = `${yaml}risk:${criteria('O2')}`;
    const unsound = plan('RP-01', 'approved', 'O1', 'unknown: 1\n');
    for (const plans of [[], [plan('RP-01', 'retired', 'O1')], [unsound]]) {
      const project = projectOf(own, ...plans);
      expect(project.riskPlan).toBeUndefined();
      expect(project.fields.risk?.acceptable).toEqual({ S1: 'O2' });
      expect(criteriaOrigin(project, ['risk', 'acceptable'])).toMatchObject({
        owner: 'plinth.yaml',
        place: { file: 'plinth.yaml', line: 5 },
        records: [],
      });
    }
  });

  test('are those of the plan with one, also beside those of plinth.yaml; places point into the plan', () => {
    const project = projectOf(`${yaml}risk:${criteria('O2')}`, plan('RP-01', 'draft', 'O1', policy('0.99')));
    expect(project.fields.risk?.acceptable).toEqual({ S1: 'O1' });
    expect(project.fields.sampling_policy?.[0]?.reliability).toBe(0.99);
    expect(criteriaOrigin(project, ['risk', 'acceptable', 'S1'])).toMatchObject({
      owner: 'RP-01',
      place: { file: 'risks/RP-01.md', line: 11 },
      records: ['RP-01'],
    });
    expect(criteriaOrigin(project, ['sampling_policy', 0, 'severity']).place).toMatchObject({
      file: 'risks/RP-01.md',
      line: 12,
    });
  });

  test('a plan without a sampling policy leaves that of plinth.yaml, with its place', () => {
    const project = projectOf(`${yaml}${policy('0.9')}`, plan('RP-01', 'draft', 'O1'));
    expect(project.fields.sampling_policy?.[0]?.reliability).toBe(0.9);
    expect(criteriaOrigin(project, ['sampling_policy', 0]).place.file).toBe('plinth.yaml');
    expect(criteriaOrigin(project, ['risk', 'severities']).place.file).toBe('risks/RP-01.md');
  });

  test('of two plans, the approved one counts, else the first by id', () => {
    const ids = (...plans: readonly (readonly [string, string])[]) => projectOf(yaml, ...plans).riskPlan?.id;
    expect(ids(plan('RP-01', 'draft', 'O1'), plan('RP-02', 'approved', 'O2'))).toBe('RP-02');
    expect(ids(plan('RP-02', 'draft', 'O1'), plan('RP-01', 'in review', 'O2'))).toBe('RP-01');
  });
});

describe('the schema of an estimate', () => {
  const found = (after: string): readonly string[] =>
    analyse(
      inputsFrom(
        new Map([
          ['plinth.yaml', yaml],
          [
            'risks/RK-01.md',
            `---\nid: RK-01\ntype: risk\ntitle: Cut\nstatus: draft\nhazard: edge\nsequence: A burr is left.\nhazardous_situation: It touches tissue.\nharm: cut\nseverity: S1\nbefore: { p1: 0.1, p2: 0.1 }\nafter: ${after}\n---\nText.\n`,
          ],
        ]),
      ),
      [],
    ).findings.map(({ message }) => message);

  test.each([
    ['{ p1: 0.1, p2: 0.1 }', []],
    ['{ not_estimable: Nobody has counted it. }', []],
    ['{ p1: 0.1 }', ['the field "p2" is missing in after']],
    ['{ severity: S1 }', ['the field "p1" is missing in after', 'the field "p2" is missing in after']],
    [
      '{ p1: 0.1, not_estimable: Nobody has counted it. }',
      ['after.p1 does not go together with the other fields that stand beside it'],
    ],
  ])('%s', (after, expected) => {
    expect(found(after)).toEqual(expected);
  });
});

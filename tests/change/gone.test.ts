import { describe, expect, test } from 'vitest';
import { assessImpact } from '../../src/change/impact.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';

const demonstration = readTree('content');

const impactOf = (edit: (files: Map<string, string | Uint8Array>) => void) => {
  const files = new Map<string, string | Uint8Array>(demonstration);
  edit(files);
  return assessImpact({
    before: analyse(inputsFrom(demonstration)),
    after: analyse(inputsFrom(files)),
    beforeName: { name: 'before' },
    afterName: { name: 'after' },
    textsBefore: new Map(),
    textsAfter: new Map(),
    unseen: [],
  });
};
const textOf = (path: string): string => new TextDecoder().decode(demonstration.get(path));

describe('a result that is gone', () => {
  const impact = impactOf((files) => files.delete('verification/VR-09B.md'));

  test('is asked for again, and what it had replaced decides again', () => {
    expect(impact.tests.map((each) => [each.id, each.action, each.reasons[0]?.text])).toEqual([
      ['VR-09A', 'repeat', 'its repetition VR-09B no longer counts, so it decides again (fail)'],
      ['VR-09B', 'repeat', 'it was removed, and no other result replaces it'],
    ]);
  });

  test('reaches the risk that it spoke for, and the requirements that name it', () => {
    expect(impact.risks.map((each) => each.id)).toContain('RK-03');
    expect(impact.requirements.map((each) => each.id)).toContain('GR-6');
    expect(impact.standing.find((each) => each.id === 'RK-03')).toMatchObject({
      before: 'passed',
      after: 'failed',
    });
  });

  test('is the same when it is retired', () => {
    const retired = impactOf((files) =>
      files.set(
        'verification/VR-09B.md',
        textOf('verification/VR-09B.md').replace('status: approved', 'status: retired'),
      ),
    );
    expect(retired.tests.map((each) => each.id)).toEqual(['VR-09A', 'VR-09B']);
    expect(retired.tests[1]?.reasons[0]?.text).toBe('it was retired, and no other result replaces it');
  });
});

test('what was replaced and stays so is not asked for', () => {
  const impact = impactOf((files) => files.delete('verification/VR-09A.md'));
  expect(impact.tests.map((each) => each.id)).not.toContain('VR-09A');
});

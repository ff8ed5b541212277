import { describe, expect, test } from 'vitest';
import { runChecks } from '../../src/checks/check.ts';
import { checks } from '../../src/checks/index.ts';
import { analyse } from '../../src/pipeline.ts';
import { shippedClauseTables } from '../../src/regulation/clause-tables.ts';
import { inputsFrom } from '../support/technical-file.ts';

const recordOf = (table: string, clause: string, fields: string): ReadonlyMap<string, string> =>
  new Map([
    ['plinth.yaml', 'device: { name: Applicator, maker: Harrow Lane Instruments }\n'],
    [
      'GR-1.md',
      `---\nid: GR-1\ntype: legal-requirement\ntitle: A clause\nstatus: approved\ntable: ${table}\nclause: "${clause}"\n${fields}\n---\n`,
    ],
  ]);

const found = (code: string, files: ReadonlyMap<string, string>) => {
  const wanted = checks.filter((check) => check.code === code);
  return runChecks(wanted, analyse(inputsFrom(files), [])).findings;
};

describe('a row that is known from memory only causes no error by itself', () => {
  test('the cases rest on rows of the two kinds', () => {
    const row = (key: string, clause: string) =>
      shippedClauseTables.find((table) => table.key === key)?.byClause.get(clause);
    expect(row('iso-14971', '5.4')?.provenance).toBe('memory');
    expect(row('eu-mdr-annex-1', '14.2')?.provenance).not.toBe('memory');
  });

  test.each([
    ['applicability-without-reason', 'applicable: false'],
    ['applicability-not-confirmed', 'applicable: proposed yes'],
    ['requirement-without-evidence', 'applicable: true'],
  ])('%s', (code, fields) => {
    const [remembered, ...more] = found(code, recordOf('iso-14971', '5.4', fields));
    expect(more).toEqual([]);
    expect(remembered?.level).toBe('warning');
    expect(remembered?.message).toContain('(from memory)');
    const [compared] = found(code, recordOf('eu-mdr-annex-1', '14.2', fields));
    expect(compared?.level).toBe('error');
    expect(compared?.message).not.toContain('from memory');
  });
});

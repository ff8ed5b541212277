import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { steadyPdf } from '../../src/writers/pdf/steady-pdf.ts';

const digestOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** The end of a file as LibreOffice 7.4 writes it, at a time and with identifiers made from it. */
const file = (time: string, identifier: string, body = 'q 1 0 0 1 0 0 cm Q'): Uint8Array =>
  new Uint8Array(
    Buffer.from(
      `%PDF-1.6\n%\u00e4\u00fc\n${body}\n<</Creator<FEFF0057>\n/CreationDate(D:${time}Z')>>\ntrailer\n<</Size 876/Root 874 0 R\n/ID [ <${identifier}>\n<${identifier}> ]\n/DocChecksum /${identifier}\n>>\nstartxref\n118417\n%%EOF\n`,
      'latin1',
    ),
  );
const [first, second] = ['747D8268C1169CED225E9E87C80E20AC', '72BF515A1E005B27A4EBB2725FE22714'];
const textOf = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');

describe('a PDF without the time of the run', () => {
  test('two runs give the same bytes, of the same length', () => {
    const a = steadyPdf(file('20261126011254', first), '2026-11-02', digestOf);
    const b = steadyPdf(file('20270101000000', second), '2026-11-02', digestOf);
    expect(textOf(a)).toBe(textOf(b));
    expect(a.length).toBe(file('20261126011254', first).length);
    expect(textOf(a)).toContain("/CreationDate(D:20261102000000Z')");
    expect(textOf(a)).not.toContain(first);
  });

  test('bytes above 127 stay', () => {
    expect(textOf(steadyPdf(file('20261126011254', first), '2026-11-02', digestOf))).toContain(
      '%\u00e4\u00fc',
    );
  });

  test('another content has another identifier', () => {
    const identifier = (bytes: Uint8Array): string => /\/DocChecksum \/(\w+)/.exec(textOf(bytes))?.[1] ?? '';
    const a = steadyPdf(file('20261126011254', first), '2026-11-02', digestOf);
    const b = steadyPdf(file('20261126011254', first, 'q Q'), '2026-11-02', digestOf);
    expect(identifier(a)).toMatch(/^[0-9A-F]{32}$/);
    expect(identifier(a)).not.toBe(identifier(b));
  });

  test('standard tags keep their meaning, in a file of the same length', () => {
    const map = 'q Q\n/RoleMap<</H1/H1\n/Quote/P\n/Note#20Bad/P\n/Quote#20Box/P\n/Table/Table\n>>';
    const steady = steadyPdf(file('20261126011254', first, map), '2026-11-02', digestOf);
    expect(textOf(steady)).toContain(
      '/RoleMap<</H1/H1\n        \n/Note#20Bad/P\n/Quote#20Box/P\n/Table/Table\n>>',
    );
    expect(steady.length).toBe(file('20261126011254', first, map).length);
  });

  test('what is no date leaves the time as it is', () => {
    expect(textOf(steadyPdf(file('20261126011254', first), 'soon', digestOf))).toContain('D:20261126011254');
  });
});

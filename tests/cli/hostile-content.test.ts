import { existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { emptyFolder, runPlinth } from './run-plinth.ts';

/** A technical file by somebody who means harm: nothing of it may run, leave the folder or reach the terminal. */
const folder = emptyFolder();
const write = (path: string, text: string | Uint8Array): void => {
  mkdirSync(join(folder, path, '..'), { recursive: true });
  writeFileSync(join(folder, path), text);
};

write('secret.csv', 'unit,force [N]\nA,1\n');
write('content/plinth.yaml', 'device:\n  name: "<script>alert(1)</script>"\n  maker: "=HYPERLINK(1)"\n');
write(
  'content/UN-01.md',
  '---\nid: UN-01\ntype: user-need\ntitle: "=1+1 <img src=x onerror=alert(1)> \\e[31mred"\nstatus: draft\nneeded_by: ["@SUM(A1)"]\n---\n<script>alert(2)</script>\n\n[click](javascript:alert(3))\n\n## Rationale\nText.\n',
);
write(
  'content/VP-01.md',
  '---\nid: VP-01\ntype: verification-protocol\ntitle: T\nstatus: draft\nverifies: [DI-01]\nmethod: test\ncondition: fresh\nacceptance: [{ characteristic: force, unit: N, lower: 1 }]\nsampling: { kind: all-units, rationale: none }\n---\n## Purpose\n\n## Procedure\n',
);
for (const [number, file] of [
  ['01', '../secret.csv'],
  ['02', '/etc/hostname'],
  ['03', '..\\\\secret.csv'],
])
  write(
    `content/VR-${number}.md`,
    `---\nid: VR-${number}\ntype: verification-record\ntitle: T\nstatus: draft\nreports: VP-01\nexecuted: { from: 2026-01-01, to: 2026-01-02 }\ndata: { file: "${file}", sha256: "${'0'.repeat(64)}", columns: [{ characteristic: force, column: force }] }\nresult: pass\n---\n## Conclusion\n`,
  );
write(
  'content/RK-01.md',
  '---\nid: RK-01\ntype: risk\n__proto__: { polluted: true }\ntitle: T\nstatus: draft\n---\n',
);
write(
  'content/DOC-01.md',
  '---\nid: DOC-01\ntype: document\ntitle: "../../escape <b>"\nstatus: draft\nrevision: "1"\nformats: [docx, html, csv]\n---\n<iframe src="https://example.org"></iframe>\n\n```plinth records\ntype: user-need\ncaption: "=cmd|calc"\nanchor: needs\n```\n\n```plinth records\ntype: user-need\nform: full\n```\n',
);
symlinkSync(join(folder, 'secret.csv'), join(folder, 'content/link.csv'));

describe('hostile content', () => {
  const checked = runPlinth(folder, ['check']);
  const built = runPlinth(folder, ['build']);

  test('is reported as findings, not as a bug, and no escape sequence reaches the terminal', () => {
    for (const { code, out, error } of [checked, built]) {
      expect(code).toBe(1);
      expect(error).toBe('');
      // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
      expect(out).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/);
    }
  });

  test('reads no file outside the folder', () => {
    for (const number of ['01', '02', '03'])
      expect(checked.out).toMatch(new RegExp(`VR-${number}\\.md:\\d+:\\d+ +error +data-file-missing`));
    expect(checked.out).toContain('link.csv');
    expect(checked.out).toContain('file-refused');
  });

  test('writes inside the output folder only', () => {
    expect(existsSync(join(folder, 'escape-b.docx'))).toBe(false);
    expect(existsSync(join(folder, 'build/DOC-01-escape-b.docx'))).toBe(true);
  });

  test('puts no script into HTML and no formula into a cell', () => {
    const html = readFileSync(join(folder, 'build/DOC-01-escape-b.html'), 'utf8');
    expect(html).not.toMatch(/<script|<iframe|<img|onerror=alert\(1\)>|href="javascript/i);
    expect(html).toContain('&lt;img src=x');
    const csv = readFileSync(join(folder, 'build/DOC-01-needs.csv'), 'utf8');
    const cells = (parse(csv, { relax_column_count: true }) as string[][]).flat();
    expect(cells.length).toBeGreaterThan(3);
    for (const cell of cells) expect(cell).not.toMatch(/^\s*[=+@|]/);
  });

  test('refuses keys that reach a prototype', () => {
    expect(checked.out).toContain('the key __proto__ is not allowed');
  });
});

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { MemoryFiles } from '../support/technical-file.ts';
import { openBrowser, type SiteFolder, visit, writeSiteFolder } from './browse.ts';

/** Each would set a mark, ask for a foreign place or open a dialog if a browser took it for more than text. */
const script = '<script>globalThis.harmed = 1</script>';
const image = '<img src=x onerror=globalThis.harmed=2>';
const closing = `</script></title></textarea></style>--></svg>${script}`;
const quoted = `"' onmouseover=globalThis.harmed=3 autofocus onfocus=globalThis.harmed=4 x="`;
const drawing = `<svg onload=globalThis.harmed=5><a xlink:href=javascript:globalThis.harmed=6>x</a></svg>`;
const formula = '=HYPERLINK("https://example.org/?leak")';

/** Turns the text after it round (Unicode Standard Annex 9). */
const turning = '\u202e';

/** As it stands between quotes in YAML. What turns text must be written as an escape there, for it is refused as itself. */
const yaml = (text: string): string => JSON.stringify(text).replaceAll(turning, '\\u202e');

const record = (id: string, type: string, title: string, fields: string, body: string): string =>
  `---\nid: ${yaml(id)}\ntype: ${type}\ntitle: ${yaml(title)}\nstatus: draft\n${fields}---\n${body}\n`;

const readings = Array.from(
  { length: 400 },
  (_, row) =>
    `${[script, image, formula, quoted, 'U'][row % 5]?.replaceAll('"', "'")}${row},${30 + (row % 7)}\n`,
).join('');

const files: MemoryFiles = new Map<string, string>([
  [
    'plinth.yaml',
    `device: { name: ${yaml(`Applicator ${closing}`)}, maker: ${yaml(image)}, code: ${yaml(quoted)} }\n`,
  ],
  [
    'UN-01.md',
    record(
      'UN-01',
      'user-need',
      `${script} ${formula}`,
      `needed_by: [${yaml(image)}, "@SUM(A1)"]\n`,
      `${script}\n\n${image}\n\n[a](javascript:globalThis.harmed=7) [b](data:text/html,${encodeURIComponent(script)}) <https://example.org/?${quoted}>\n\n${drawing}\n\n![p](https://example.org/p.png) ![q](//example.org/q.svg)\n\n## Rationale ${image}\n\nText[^1].\n\n[^1]: ${image}`,
    ),
  ],
  ['UN-02.md', record(`UN-02${quoted}`, 'user-need', closing, '', closing)],
  ['UN-03.md', record('../../UN-03', 'user-need', quoted, '', drawing)],
  ['UN-04.md', record('__proto__', 'user-need', 'constructor', '', 'toString')],
  [
    'UN-05.md',
    record(
      'CON',
      'user-need',
      `${turning}\u0000\u0007 gnirts`,
      '',
      `&lt;script&gt; &#60;script&#62; ${turning}N 03 &#x202e;tsom ta\u2066`,
    ),
  ],
  [
    'DI-01.md',
    record(
      'DI-01',
      'design-input',
      quoted,
      `derives_from: [UN-01, ${yaml(script)}]\nlimits: [{ characteristic: ${yaml(image)}, unit: N, lower: 1 }]\nmethod: [test]\n`,
      image,
    ),
  ],
  [
    'VP-01.md',
    record(
      'VP-01',
      'verification-protocol',
      drawing,
      `verifies: [DI-01]\nmethod: test\ncondition: fresh\nacceptance: [{ characteristic: ${yaml(image)}, unit: N, lower: 1 }]\nsampling: { kind: all-units, rationale: ${yaml(script)} }\n`,
      '## Purpose\n\n## Procedure',
    ),
  ],
  [
    'VR-01.md',
    record(
      'VR-01',
      'verification-record',
      closing,
      `reports: VP-01\nexecuted: { from: 2026-01-01, to: 2026-01-02 }\ndata: { file: ${yaml("data/' onload=x <b>.csv")}, sha256: "${'0'.repeat(64)}", unit_id: unit, columns: [{ characteristic: ${yaml(image)}, column: force }] }\nresult: pass\n`,
      `## Conclusion\n\n${image}`,
    ),
  ],
  ["data/' onload=x <b>.csv", `unit,force [N]\n${readings}`],
  [
    'DOC-01.md',
    record(
      'DOC-01',
      'document',
      `${closing}`,
      'revision: "1"\nformats: [html]\n',
      `# ${image}\n\n<iframe src="https://example.org"></iframe>\n\n![${quoted}](picture.svg "${closing.replaceAll('"', "'")}")\n\n\`\`\`plinth records\ntype: user-need\ncaption: ${yaml(image)}\n\`\`\``,
    ),
  ],
  [
    'picture.svg',
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9" onload="globalThis.harmed=8">${script}<foreignObject><iframe xmlns="http://www.w3.org/1999/xhtml" src="https://example.org"/></foreignObject><image href="https://example.org/i.png"/><rect width="9" height="9" style="fill:url(https://example.org/f)"/></svg>`,
  ],
  // A long table is drawn by a script from a data file, so it has a way of its own into the page.
  ...Array.from({ length: 320 }, (_, at): readonly [string, string] => [
    `many/EQ-${at}.md`,
    record(`EQ-${1000 + at}`, 'equipment', [script, image, closing, drawing][at % 4] ?? '', '', ''),
  ]),
]);

let browser: Browser;
let site: SiteFolder;

beforeAll(async () => {
  [browser, site] = await Promise.all([openBrowser(), writeSiteFolder(files)]);
});

afterAll(async () => {
  await browser?.close();
  site?.remove();
});

const pagePaths = (): readonly string[] =>
  readdirSync(site.folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.html') && !/EQ-1[0-3](?!00)/.test(path))
    .sort();

test('nothing that content says runs, loads or leads out of the folder, on any page', async () => {
  const paths = pagePaths();
  expect(paths.length).toBeGreaterThan(25);
  const { page, complaints, close } = await visit(browser, site.root);
  for (const path of paths) {
    await page.goto(site.root + path.split('/').map(encodeURIComponent).join('/'));
    const seen = await page.evaluate<Readonly<Record<string, unknown>>>(
      `({
        harmed: globalThis.harmed ?? 0,
        ready: document.documentElement.dataset.ready,
        frames: document.querySelectorAll('iframe, object, embed, base, form, foreignObject, [autofocus]').length,
        handlers: [...document.querySelectorAll('*')].filter((each) => each.getAttributeNames().some((name) => /^on/.test(name))).length,
        scripts: [...document.scripts].filter((each) => !each.src.startsWith(${JSON.stringify(site.root)})).length,
        links: [...document.links].filter((each) => !/^(?:https?|mailto|file):/.test(each.href)).length,
        outside: [...document.links].filter((each) => each.protocol === 'file:' && !each.href.startsWith(${JSON.stringify(site.root)})).length,
      })`,
    );
    expect(seen, path).toEqual({
      harmed: 0,
      ready: 'yes',
      frames: 0,
      handlers: 0,
      scripts: 0,
      links: 0,
      outside: 0,
    });
  }
  expect(complaints).toEqual([]);
  await close();
});

test('nothing that content says turns the text around it', () => {
  const paths = readdirSync(site.folder, { recursive: true, encoding: 'utf8' }).filter((path) =>
    /\.(?:html|js|svg)$/.test(path),
  );
  for (const path of paths)
    expect(readFileSync(join(site.folder, path), 'utf8'), path).not.toMatch(/[\u202a-\u202e\u2066-\u2069]/);
  const page = readFileSync(
    join(site.folder, 'records', paths.find((path) => /^records\/CON-/.test(path))?.slice(8) ?? ''),
    'utf8',
  );
  expect(page).toContain('\ufffd gnirts');
  expect(page).toContain('\ufffdN 03 \ufffdtsom ta\ufffd');
});

test('what was written can be read as it was written', async () => {
  const { page, close } = await visit(browser, site.root);
  await page.goto(`${site.root}records/UN-01.html`);
  expect(await page.locator('h1').textContent()).toBe(`UN-01 ${script} ${formula}`);
  await close();
});

test('search shows names as text, and its address and a table’s are not trusted', async () => {
  const { page, complaints, close } = await visit(browser, site.root);
  await page.goto(
    `${site.root}types/equipment.html#?type-equipment._words=${encodeURIComponent(image)}&type-equipment.equipment=${encodeURIComponent(script)}&type-equipment._sort=-${encodeURIComponent(quoted)}&type-equipment._columns=__proto__.constructor&${encodeURIComponent(closing)}=1`,
  );
  await page.keyboard.press('Control+k');
  await page.locator('dialog.search[data-loaded="all"]').waitFor();
  await page.keyboard.type('globalThis.harmed');
  await page.locator('dialog.search li').first().waitFor();
  expect(await page.locator('dialog.search li').count()).toBeGreaterThan(10);
  expect(await page.locator('dialog.search img, dialog.search script, dialog.search svg').count()).toBe(0);
  expect(await page.evaluate('globalThis.harmed ?? 0')).toBe(0);
  expect(complaints).toEqual([]);
  await close();
});

test('no cell of a view that is taken away as CSV is a formula', async () => {
  const { page, complaints, close } = await visit(browser, site.root);
  const raw = pagePaths().find((path) => path.startsWith('raw/')) ?? '';
  await page.goto(site.root + raw.split('/').map(encodeURIComponent).join('/'));
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'CSV' }).click(),
  ]);
  const text = readFileSync(await download.path(), 'utf8');
  const rows = parse(text, { bom: true }) as string[][];
  expect(rows.length).toBe(401);
  const cells = rows.flat();
  expect(cells.some((cell) => cell.includes('HYPERLINK'))).toBe(true);
  for (const cell of cells) expect(cell).not.toMatch(/^[\s]*[=+@|]|^-(?!\d)/);
  expect(complaints).toEqual([]);
  await close();
});

test('every file of the copy lies in its folder, under a name that any system takes', () => {
  const paths = readdirSync(site.folder, { recursive: true, encoding: 'utf8' });
  for (const path of paths)
    for (const name of path.split('/'))
      expect(name, path).toMatch(/^(?!(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$))[A-Za-z0-9._-]+$/i);
  // Raw data keep their bytes whatever stands in them.
  const copy = paths.find((path) => path.startsWith('raw/') && path.endsWith('.csv')) ?? '';
  expect(readFileSync(join(site.folder, copy), 'utf8')).toBe(`unit,force [N]\n${readings}`);
});

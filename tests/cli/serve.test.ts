import { spawn } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const project = 'device: { name: Granule applicator, maker: Harrow Lane Instruments }\n';
const need = (title: string) =>
  `---\nid: UN-01\ntype: user-need\ntitle: ${title}\nstatus: draft\n---\nThe surgeon doses with one hand.\n`;

const technicalFile = (): string => {
  const folder = emptyFolder();
  mkdirSync(join(folder, 'content'));
  writeFileSync(join(folder, 'content/plinth.yaml'), project);
  writeFileSync(join(folder, 'content/UN-01.md'), need('One-handed dosing'));
  return folder;
};

test('pages follow what is written, findings and all, until the command is stopped', async () => {
  const folder = technicalFile();
  const child = spawn(
    process.execPath,
    [process.env['PLINTH_UNDER_TEST'] ?? '', 'serve', 'content', '--port', '0'],
    { cwd: folder, env: { ...process.env, NO_COLOR: '1' } },
  );
  let out = '';
  let error = '';
  child.stdout.setEncoding('utf8').on('data', (part) => {
    out += part;
  });
  child.stderr.setEncoding('utf8').on('data', (part) => {
    error += part;
  });
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  const until = async (isSo: () => boolean): Promise<void> => {
    for (let tries = 0; !isSo(); tries += 1) {
      if (tries > 600 || child.exitCode !== null) throw new Error(`not so: ${out}${error}`);
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  };
  await until(() => out.includes('Ctrl+C'));
  const address = /http:\/\/127\.0\.0\.1:\d+\//.exec(out)?.[0] ?? '';
  const page = async (): Promise<string> => (await fetch(`${address}records/UN-01.html`)).text();
  const stateOf = (html: string): string | undefined => /data-state="([0-9a-f]{16})"/.exec(html)?.[1];

  const events = await fetch(`${address}events`);
  const reader = events.body?.pipeThrough(new TextDecoderStream()).getReader();
  let heard = '';
  const listening = (async () => {
    for (;;) {
      const part = await reader?.read();
      if (!part || part.done) return;
      heard += part.value;
    }
  })();

  const before = await page();
  expect(before).toContain('UN-01 One-handed dosing');
  expect(before).toContain("connect-src 'self'");
  await until(() => heard.includes(`data: ${stateOf(before)}`));

  writeFileSync(join(folder, 'content/UN-01.md'), need('Dosing without re-gripping'));
  await until(() => out.includes('in '));
  const after = await page();
  expect(after).toContain('UN-01 Dosing without re-gripping');
  expect(stateOf(after)).not.toBe(stateOf(before));
  await until(() => heard.includes(`data: ${stateOf(after)}`));

  // A record that nobody can read as one is a finding on a page, not the end of the command.
  const lines = out.split('\n').length;
  writeFileSync(join(folder, 'content/UN-02.md'), '---\nid: [\n---\n');
  await until(() => out.split('\n').length > lines);
  expect(await (await fetch(`${address}findings.html`)).text()).toContain('UN-02.md');

  // The page of a record that was just saved broken stays, with the reason, and comes back when it is mended.
  const broken = out.length;
  writeFileSync(join(folder, 'content/UN-01.md'), '---\nid: UN-01\ntitle: [\n---\n');
  await until(() => /in .* s\n.*UN-01\.md:\d+:\d+: error: /s.test(out.slice(broken)));
  const kept = await fetch(`${address}records/UN-01.html`);
  expect(kept.status).toBe(200);
  const keptText = await kept.text();
  expect(keptText).toContain('UN-01 Dosing without re-gripping');
  expect(keptText).toMatch(/role="alert">.*earlier state.*<code>UN-01\.md:\d+:\d+<\/code>/s);
  expect(keptText).toContain('href="../findings.html"');
  await until(() => heard.includes(`data: ${stateOf(keptText)}`));
  // Also after something else was saved.
  const again = out.length;
  writeFileSync(join(folder, 'content/UN-03.md'), need('Another need').replace('UN-01', 'UN-03'));
  await until(() => out.slice(again).includes('in '));
  const still = await page();
  expect(still.match(/earlier state/g)?.length).toBe(1);
  expect(stateOf(still)).not.toBe(stateOf(keptText));

  // A record that never was readable, or that is gone, has a page that listens and says where to look.
  const never = await fetch(`${address}records/UN-02.html`);
  expect(never.status).toBe(404);
  const neverText = await never.text();
  expect(neverText).toContain('src="../assets/live.js"');
  expect(neverText).toContain('href="../findings.html"');
  expect(neverText).toContain('UN-02.md:');
  expect(stateOf(neverText)).toBe(stateOf(still));
  expect(await (await fetch(`${address}assets/nothing.js`)).text()).toBe('There is no such page.\n');

  const mended = out.length;
  writeFileSync(join(folder, 'content/UN-01.md'), need('Dosing by feel'));
  rmSync(join(folder, 'content/UN-03.md'));
  await until(() => out.slice(mended).includes('in '));
  await until(() => heard.split('event: state').length > 4);
  const back = await page();
  expect(back).toContain('UN-01 Dosing by feel');
  expect(back).not.toContain('earlier state');
  expect((await fetch(`${address}records/UN-03.html`)).status).toBe(404);

  // Without its settings no page would be right: all of them stay, and the reason is told.
  const unsettled = out.length;
  writeFileSync(join(folder, 'content/plinth.yaml'), 'device: { name: [\n');
  await until(() => /plinth\.yaml:\d+:\d+: error: /.test(out.slice(unsettled)));
  const overview = await (await fetch(address)).text();
  expect(overview).toContain('Harrow Lane Instruments');
  expect(overview).not.toContain('unnamed');
  await until(() => heard.includes('plinth.yaml'));
  writeFileSync(join(folder, 'content/plinth.yaml'), project.replace('Granule', 'Other'));
  await until(() => out.slice(unsettled).includes('in '));
  expect(await (await fetch(address)).text()).toContain('Other applicator');

  child.kill('SIGINT');
  expect(await ended).toBe(0);
  await listening.catch(() => undefined);
  expect(error).toBe('');
  expect(readdirSync(folder)).toEqual(['content']);
  expect(readFileSync(join(folder, 'content/plinth.yaml'), 'utf8')).toBe(project.replace('Granule', 'Other'));
}, 60_000);

test.each([
  [['--port', '70000'], '--port is 70000, expected a whole number from 0 to 65535'],
  [['--port', 'x'], '--port is "x", expected a number'],
  [['--port', '0', '--since', 'nothing'], '"nothing" is no folder with plinth.yaml'],
])('plinth serve %j is refused', (words, message) => {
  const { code, error } = runPlinth(technicalFile(), ['serve', 'content', ...words]);
  expect(error).toContain(message);
  expect(error).not.toContain('0.95');
  expect(code).toBe(2);
});

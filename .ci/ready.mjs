// Makes a fresh clone ready: installs what package-lock.json asks for where it is missing, and bundles the command line.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  process.stderr.write(`Plinth needs Node.js 20.19 or newer; this is ${process.versions.node}.\n`);
  process.exit(2);
}
const lock = createHash('sha256')
  .update(readFileSync(`${root}package-lock.json`))
  .digest('hex');
const stamp = `${root}node_modules/.plinth-installed`;
const installed = existsSync(stamp) && readFileSync(stamp, 'utf8') === lock;
if (!installed) {
  process.stdout.write('Installing packages …\n');
  const result = spawnSync('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (result.status !== 0) {
    process.stderr.write(
      'The packages could not be installed: see above. Check the network, then run the command again.\n',
    );
    process.exit(2);
  }
  writeFileSync(stamp, lock);
}
const { bundle } = await import('./bundle.mjs');
await bundle();

// Makes a fresh clone ready: installs what package-lock.json asks for where it is missing, and bundles the command line.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  process.stderr.write(`Plinth needs Node.js 20.19 or newer; this is ${process.versions.node}.\n`);
  process.exit(2);
}
/** True where every package of package-lock.json that is not optional lies in node_modules at its version. */
const isInstalled = () => {
  const hidden = `${root}node_modules/.package-lock.json`;
  if (!existsSync(hidden)) return false;
  const present = JSON.parse(readFileSync(hidden, 'utf8')).packages;
  const wanted = JSON.parse(readFileSync(`${root}package-lock.json`, 'utf8')).packages;
  return Object.entries(wanted).every(
    ([place, { version, optional, devOptional, peer }]) =>
      place === '' || optional || devOptional || peer || present[place]?.version === version,
  );
};

if (!isInstalled()) {
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
}
const { bundle } = await import('./bundle.mjs');
await bundle();

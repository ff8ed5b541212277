// npm start: checks the demonstration file and builds its documents, then says what lies where.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const plinth = (...words) =>
  spawnSync(process.execPath, ['build/cli/plinth.js', ...words], { cwd: root, stdio: 'inherit' }).status ?? 3;
const result = plinth('build', 'content', '--output', 'build/documents', '--site', 'build/site');
process.stdout.write(
  result === 0
    ? '\nThe demonstration file is in content, its documents are in build/documents.\nOpen build/site/index.html to look around.\nNext: node build/cli/plinth.js --help\n'
    : '\nThe demonstration file did not pass: see the findings above.\n',
);
process.exitCode = result;

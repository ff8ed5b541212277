import { execFileSync } from 'node:child_process';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { projectRoot } from './support/technical-file.ts';

/**
 * Bundles the command line once, for the tests that run it as a user does. Each run has a folder of its own, so that
 * two runs side by side don't take it away from each other.
 */
export const setup = (): (() => void) => {
  const folder = join(projectRoot, 'build', `cli-under-test-${process.pid}`);
  execFileSync(process.execPath, ['.ci/bundle.mjs', folder], { cwd: projectRoot, stdio: 'inherit' });
  process.env['PLINTH_UNDER_TEST'] = join(folder, 'plinth.js');
  return () => rmSync(folder, { recursive: true, force: true });
};

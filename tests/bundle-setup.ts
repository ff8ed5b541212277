import { execFileSync } from 'node:child_process';
import { projectRoot } from './support/technical-file.ts';

/** Bundles the command line once, for the tests that run it as a user does. */
export const setup = (): void => {
  execFileSync(process.execPath, ['.ci/bundle.mjs', 'build/cli-under-test'], {
    cwd: projectRoot,
    stdio: 'inherit',
  });
};

// Bundles the command line into build/cli, one small entry and a piece for each command that is loaded on use.

import { chmodSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));

export const bundle = async (outdir = `${root}build/cli`) => {
  rmSync(outdir, { recursive: true, force: true });
  await build({
    absWorkingDir: root,
    entryPoints: { plinth: 'src/cli/main.ts' },
    outdir,
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20.19',
    minifySyntax: true,
    minifyWhitespace: true,
    legalComments: 'linked',
    chunkNames: 'parts/[name]-[hash]',
    // Packages in CommonJS form ask for require; ESM output has none of its own.
    banner: {
      js: "#!/usr/bin/env node\nimport { createRequire as plinthRequire } from 'node:module'; const require = plinthRequire(import.meta.url);",
    },
    logLevel: 'warning',
  });
  chmodSync(`${outdir}/plinth.js`, 0o755);
};

if (process.argv[1] === fileURLToPath(import.meta.url)) await bundle(process.argv[2]);

// Bundles the command line into build/cli, one small entry and a piece for each command that is loaded on use.

import { chmodSync, cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { compileValidators } from './compile-validators.mjs';
import { quickerLayout } from './quicker-layout.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Classes for the share of a column: the pages of the browsable copy allow no style of their own. */
const columnWidths = Array.from({ length: 100 }, (_, index) => `.w${index + 1}{width:${index + 1}%}`).join(
  '',
);

/** The style sheet and scripts of the browsable copy: src/host/own-files.ts looks here. */
const bundleSite = async (outdir) => {
  const options = {
    absWorkingDir: root,
    outdir,
    bundle: true,
    minify: true,
    charset: 'utf8',
    target: ['chrome114', 'firefox125', 'safari17'],
    logLevel: 'warning',
  };
  await build({
    ...options,
    entryPoints: ['site', 'theme', 'live'].map((name) => `src/site/${name}.ts`),
    format: 'iife',
  });
  await build({ ...options, entryPoints: ['src/site/site.css'] });
  cpSync(`${root}src/site/icon.svg`, `${outdir}/icon.svg`);
  writeFileSync(
    `${outdir}/site.css`,
    `${readFileSync(`${outdir}/site.css`, 'utf8').trim()}${columnWidths}\n`,
  );
};

export const bundle = async (outdir = `${root}build/cli`) => {
  rmSync(outdir, { recursive: true, force: true });
  await build({
    absWorkingDir: root,
    entryPoints: { plinth: 'src/cli/main.ts', 'word-worker': 'src/cli/word-worker.ts' },
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
    plugins: [quickerLayout],
    logLevel: 'warning',
  });
  chmodSync(`${outdir}/plinth.js`, 0o755);
  await compileValidators(outdir);
  await bundleSite(`${outdir}/site`);
  // What draws pictures of figures, each with its licence: src/host/own-files.ts looks here first.
  const carlito = `${root}node_modules/@expo-google-fonts/carlito`;
  mkdirSync(`${outdir}/figures`, { recursive: true });
  for (const [from, name] of [
    [`${root}node_modules/@resvg/resvg-wasm/index_bg.wasm`, 'resvg.wasm'],
    [`${root}node_modules/@resvg/resvg-wasm/README.md`, 'resvg.README.md'],
    [`${carlito}/400Regular/Carlito_400Regular.ttf`, 'Carlito-Regular.ttf'],
    [`${carlito}/700Bold/Carlito_700Bold.ttf`, 'Carlito-Bold.ttf'],
    [`${carlito}/LICENSE_FONT`, 'Carlito.LICENSE'],
  ])
    cpSync(from, `${outdir}/figures/${name}`);
};

if (process.argv[1] === fileURLToPath(import.meta.url)) await bundle(process.argv[2]);

// Compiles the tool's own schemas into one file of validators, so that the command line needs not do so at each start.
// Its name holds the digest of the schemas: where somebody changes one, src/host/own-files.ts finds no such file, and
// the schemas are compiled on use.

import { mkdtempSync, rmSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import standaloneCode from 'ajv/dist/standalone/index.js';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));

/** What the sources export, bundled into a folder of their own for as long as they are loaded. */
const loadSources = async (contents) => {
  const folder = mkdtempSync(`${root}build/sources-`);
  try {
    const outfile = `${folder}/sources.mjs`;
    await build({
      stdin: { contents, resolveDir: root, loader: 'ts' },
      outfile,
      bundle: true,
      packages: 'external',
      format: 'esm',
      platform: 'node',
      logLevel: 'warning',
    });
    return await import(pathToFileURL(outfile).href);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

export const compileValidators = async (outdir) => {
  const { createSchemaCompiler, readOwnSchemas, validatorsFile } = await loadSources(`
    export { createSchemaCompiler } from './src/records/schema-compiler.ts';
    export { readOwnSchemas, validatorsFile } from './src/host/own-files.ts';`);
  const ajv = createSchemaCompiler({ asText: true });
  const texts = readOwnSchemas();
  const names = texts.map(({ file, text }) => {
    const schema = JSON.parse(text);
    ajv.addSchema(schema, schema.$id ?? file);
    return [file, schema.$id ?? file];
  });
  // Exports must be names; files are not.
  const exported = names.map(([file, id], index) => ({ file, id, name: `validator${index}` }));
  const code = standaloneCode.default(ajv, Object.fromEntries(exported.map(({ name, id }) => [name, id])));
  const list = exported.map(({ file, name }) => `${JSON.stringify(file)}: exports.${name}`).join(', ');
  await build({
    stdin: { contents: `${code}\nmodule.exports = {${list}};`, resolveDir: `${root}src/records` },
    outfile: `${outdir}/${validatorsFile(texts)}`,
    bundle: true,
    format: 'cjs',
    platform: 'node',
    target: 'node20.19',
    minify: true,
    legalComments: 'none',
    logLevel: 'warning',
  });
};

import { documentsOf } from '../../src/cli/documents.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import { sha256Hex } from '../../src/graph/digest.ts';
import { buildSite } from '../../src/pages/build-site.ts';
import { analyse } from '../../src/pipeline.ts';
import { writeSite } from '../../src/writers/site/write-site.ts';
import { inputsFrom, type MemoryFiles } from '../support/technical-file.ts';

/** The browsable copy of a technical file in memory: path to content. Scripts and style sheet are left empty. */
export const siteOf = async (files: MemoryFiles): Promise<ReadonlyMap<string, string | Uint8Array>> => {
  const analysis = analyse(inputsFrom(files));
  const site = buildSite({
    ...analysis,
    waived: analysis.waivers.waived,
    documents: await documentsOf(analysis),
    compile: await createMarkdownCompiler(),
  });
  const assets = new Map(['site.css', 'theme.js', 'site.js'].map((name) => [name, '']));
  const digest = (text: string): string => sha256Hex(new TextEncoder().encode(text)).slice(0, 20);
  return new Map([...writeSite(site, { assets, digest })].map(({ path, content }) => [path, content]));
};

/** Pages of a copy with their text. */
export const pagesIn = (site: ReadonlyMap<string, string | Uint8Array>): ReadonlyMap<string, string> =>
  new Map(
    [...site].flatMap(([path, content]) =>
      path.endsWith('.html') && typeof content === 'string' ? [[path, content] as const] : [],
    ),
  );

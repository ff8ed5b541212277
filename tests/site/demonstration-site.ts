import { documentsOf } from '../../src/cli/documents.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import { sha256Hex } from '../../src/graph/digest.ts';
import { buildSite } from '../../src/pages/build-site.ts';
import { analyse } from '../../src/pipeline.ts';
import { type SiteFile, siteAssets, writeSite } from '../../src/writers/site/write-site.ts';
import { inputsFrom, type MemoryFiles, readTree } from '../support/technical-file.ts';

/** The files of the browsable copy of a technical file, with the style sheet and the scripts that are given. */
export const siteFilesOf = async (
  files: MemoryFiles,
  assets: ReadonlyMap<string, string>,
): Promise<Iterable<SiteFile>> => {
  const analysis = analyse(inputsFrom(files));
  const site = buildSite({
    ...analysis,
    waived: analysis.waivers.waived,
    documents: await documentsOf(analysis),
    compile: await createMarkdownCompiler(),
  });
  const digest = (text: string): string => sha256Hex(new TextEncoder().encode(text)).slice(0, 20);
  return writeSite(site, { assets, digest });
};

/** The browsable copy of a technical file in memory: path to content. Scripts and style sheet are left empty. */
export const siteOf = async (files: MemoryFiles): Promise<ReadonlyMap<string, string | Uint8Array>> => {
  const assets = new Map(siteAssets.map((name) => [name, '']));
  return new Map([...(await siteFilesOf(files, assets))].map(({ path, content }) => [path, content]));
};

let demonstration: Promise<ReadonlyMap<string, string | Uint8Array>> | undefined;

/** The copy of the demonstration file, made once for all tests that only read it. */
export const demonstrationSite = (): Promise<ReadonlyMap<string, string | Uint8Array>> => {
  demonstration ??= siteOf(readTree('content'));
  return demonstration;
};

/** Pages of a copy with their text. */
export const pagesIn = (site: ReadonlyMap<string, string | Uint8Array>): ReadonlyMap<string, string> =>
  new Map(
    [...site].flatMap(([path, content]) =>
      path.endsWith('.html') && typeof content === 'string' ? [[path, content] as const] : [],
    ),
  );

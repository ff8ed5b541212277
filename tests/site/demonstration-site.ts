import { documentsOf } from '../../src/cli/documents.ts';
import { impactBetween } from '../../src/cli/impact-between.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import type { Site } from '../../src/document/site.ts';
import { sha256Hex } from '../../src/graph/digest.ts';
import { buildSite } from '../../src/pages/build-site.ts';
import { type Analysis, analyse } from '../../src/pipeline.ts';
import { impactDocument } from '../../src/views/impact-document.ts';
import { type SiteFile, siteAssets, writeSite, writeSitePage } from '../../src/writers/site/write-site.ts';
import { inputsFrom, type MemoryFiles, readTree } from '../support/technical-file.ts';

/** Address of a page that there is not, for those who want to see what stands in its place. */
export const missingPage = 'missing.html';

/**
 * The files of the browsable copy of a technical file, with the style sheet and the scripts that are given; with the page
 * on what changed since an earlier state, where there is one, and with the page that a server shows for a missing one.
 */
function* siteFilesFrom(site: Site, assets: ReadonlyMap<string, string>): Generator<SiteFile> {
  const digest = (text: string): string => sha256Hex(new TextEncoder().encode(text)).slice(0, 20);
  yield* writeSite(site, { assets, digest });
  yield { path: missingPage, content: writeSitePage(site, site.missing(missingPage)) };
}

export const siteFilesOf = async (
  files: MemoryFiles,
  assets: ReadonlyMap<string, string>,
  before?: MemoryFiles,
): Promise<Iterable<SiteFile>> => {
  const analysis = analyse(inputsFrom(files));
  const state = (name: string, of: Analysis) => ({ name: { name }, analysis: of, unseen: [] });
  const impact =
    before &&
    impactDocument({
      impact: await impactBetween(state('earlier', analyse(inputsFrom(before))), state('now', analysis), {
        isShallow: false,
      }),
      project: analysis.project.fields,
      graph: analysis.graph,
      asOf: analysis.asOf,
      toolVersion: analysis.toolVersion,
    });
  return siteFilesFrom(
    buildSite(
      {
        ...analysis,
        waived: analysis.waivers.waived,
        documents: await documentsOf(analysis),
        compile: await createMarkdownCompiler(),
      },
      impact,
    ),
    assets,
  );
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

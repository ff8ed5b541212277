import { createMarkdownCompiler } from '../document/markdown.ts';
import type { Document } from '../document/model.ts';
import { sha256Hex } from '../graph/digest.ts';
import type { RecordHistories } from '../graph/record-history.ts';
import { readSiteAssets } from '../host/own-files.ts';
import { buildSite } from '../pages/build-site.ts';
import type { Analysis } from '../pipeline.ts';
import type { CompiledDocument, DocumentOrigin } from '../views/compile-document.ts';
import { type SiteFile, siteAssets, writeSite } from '../writers/site/write-site.ts';

export interface SiteOf {
  readonly analysis: Analysis;
  /** What git knows of each record. */
  readonly histories: RecordHistories;
  readonly documents: readonly CompiledDocument[];
  readonly origin: DocumentOrigin | undefined;
  /** The report on a change, where one was compared. */
  readonly impact: Document | undefined;
  /** Where the pages listen for changes, the name of the state that they show. */
  readonly live?: string;
}

const shortDigest = (text: string): string => sha256Hex(new TextEncoder().encode(text)).slice(0, 20);

/** The files of the browsable copy, one after the other. */
export const siteFiles = async ({
  analysis,
  histories,
  documents,
  origin,
  impact,
  live,
}: SiteOf): Promise<Iterable<SiteFile>> => {
  const site = buildSite(
    {
      ...analysis,
      histories,
      waived: analysis.waivers.waived,
      ...(origin ? { origin } : {}),
      documents,
      compile: await createMarkdownCompiler(),
    },
    impact,
  );
  return writeSite(site, {
    assets: readSiteAssets([...siteAssets, ...(live === undefined ? [] : ['live.js'])]),
    digest: shortDigest,
    ...(live === undefined ? {} : { live }),
  });
};

import { createMarkdownCompiler } from '../document/markdown.ts';
import type { Document } from '../document/model.ts';
import { sha256Hex } from '../graph/digest.ts';
import type { RecordHistories } from '../graph/record-history.ts';
import { readSiteAssets } from '../host/own-files.ts';
import { buildSite } from '../pages/build-site.ts';
import type { Deliverables } from '../pages/deliverables.ts';
import type { Analysis } from '../pipeline.ts';
import type { CompiledDocument, DocumentOrigin } from '../views/compile-document.ts';
import { type SiteFile, siteAssets, writeSite, writeSitePage } from '../writers/site/write-site.ts';

export interface SiteOf {
  readonly analysis: Analysis;
  /** What git knows of each record. */
  readonly histories: RecordHistories;
  readonly documents: readonly CompiledDocument[];
  /** Files that the documents were written to, where they were. */
  readonly deliverables?: Deliverables;
  readonly origin: DocumentOrigin | undefined;
  /** The report on a change, where one was compared. */
  readonly impact: Document | undefined;
  /** Where the pages listen for changes, the name of the state that they show. */
  readonly live?: string;
}

const shortDigest = (text: string): string => sha256Hex(new TextEncoder().encode(text)).slice(0, 20);

/** The browsable copy: its files, and what a server needs to know besides. */
export interface SiteWritten {
  /** One after the other. */
  readonly files: Iterable<SiteFile>;
  /** Files of the technical file by the paths of the pages that were made from one. */
  readonly sources: ReadonlyMap<string, string>;
  /** The page for an address that no file of the copy has. */
  readonly missing: (path: string) => string;
}

/** Writes the browsable copy. */
export const siteOf = async ({
  analysis,
  histories,
  documents,
  deliverables,
  origin,
  impact,
  live,
}: SiteOf): Promise<SiteWritten> => {
  const site = buildSite(
    {
      ...analysis,
      histories,
      waived: analysis.waivers.waived,
      ...(origin ? { origin } : {}),
      documents,
      ...(deliverables ? { deliverables } : {}),
      compile: await createMarkdownCompiler(),
    },
    impact,
  );
  return {
    files: writeSite(site, {
      assets: readSiteAssets([...siteAssets, ...(live === undefined ? [] : ['live.js'])]),
      digest: shortDigest,
      ...(live === undefined ? {} : { live }),
    }),
    sources: site.sources,
    missing: (path) => writeSitePage(site, site.missing(path), live),
  };
};

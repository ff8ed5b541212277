import { createMarkdownCompiler } from '../document/markdown.ts';
import type { Finding } from '../findings/finding.ts';
import { openRepository } from '../host/git.ts';
import type { Analysis } from '../pipeline.ts';
import {
  type CompiledDocument,
  compileDocuments,
  type DocumentOrigin,
  foundInAwaiting,
} from '../views/compile-document.ts';

/** The commit at which a folder was read; undefined where it lies in no repository, or in one without commits. */
export const originOf = (folder: string): DocumentOrigin | undefined => {
  const opened = openRepository(folder);
  if (!opened.ok) return undefined;
  const head = opened.repository.resolve('HEAD');
  return head && { commit: head.id, isDirty: opened.repository.isDirty() };
};

/** Compiles the documents of an analysed technical file. The Markdown parser is loaded only where there are any. */
export const documentsOf = async (
  analysis: Analysis,
  only?: string,
  origin?: DocumentOrigin,
): Promise<readonly CompiledDocument[]> => {
  if (analysis.graph.recordsOf('document').length === 0) return [];
  const compile = await createMarkdownCompiler();
  return compileDocuments(
    { ...analysis, waived: analysis.waivers.waived, ...(origin ? { origin } : {}) },
    compile,
    only,
  );
};

/**
 * What is found in documents: in those that were compiled, and in the texts of those that wait for their first record.
 *
 * @param only ids of the documents that are asked for; all where it is left out
 */
export const foundInDocuments = async (
  analysis: Analysis,
  documents: readonly CompiledDocument[],
  only?: ReadonlySet<string>,
): Promise<readonly Finding[]> => {
  const found = documents.flatMap(({ findings }) => findings);
  if (!analysis.graph.recordsOf('document').some(({ fields }) => fields.for_each !== undefined)) return found;
  const compile = await createMarkdownCompiler();
  return [...found, ...foundInAwaiting({ ...analysis, waived: analysis.waivers.waived }, compile, only)];
};

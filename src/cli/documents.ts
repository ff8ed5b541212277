import { createMarkdownCompiler } from '../document/markdown.ts';
import type { Analysis } from '../pipeline.ts';
import { type CompiledDocument, compileDocuments } from '../views/compile-document.ts';

/** Compiles the documents of an analysed technical file. The Markdown parser is loaded only where there are any. */
export const documentsOf = async (
  analysis: Analysis,
  only?: string,
): Promise<readonly CompiledDocument[]> => {
  if (analysis.graph.recordsOf('document').length === 0) return [];
  const compile = await createMarkdownCompiler();
  return compileDocuments({ ...analysis, waived: analysis.waivers.waived }, compile, only);
};

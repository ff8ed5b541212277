import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import { analyse } from '../../src/pipeline.ts';
import { type CompiledDocument, compileDocuments } from '../../src/views/compile-document.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';

export const compile = await createMarkdownCompiler();
export const demonstration = readTree('content');

/** The demonstration file, or the given one, with one more document, whose body is given. */
export const withDocument = (
  body: string,
  base: ReadonlyMap<string, string | Uint8Array> = demonstration,
): CompiledDocument => {
  const files = new Map<string, string | Uint8Array>(base);
  files.set(
    'documents/DOC-90.md',
    `---\nid: DOC-90\ntype: document\ntitle: Trial\nstatus: draft\nrevision: "1"\n---\n${body}\n`,
  );
  const analysis = analyse(inputsFrom(files), []);
  const [document] = compileDocuments({ ...analysis, waived: analysis.waivers.waived }, compile, 'DOC-90');
  if (!document) throw new Error('the document was not compiled');
  return document;
};

export const said = ({ findings }: CompiledDocument): readonly string[] =>
  findings.map(
    (finding) =>
      `${finding.place.line}:${finding.place.column} ${finding.code}: ${finding.message} | ${finding.hint}`,
  );

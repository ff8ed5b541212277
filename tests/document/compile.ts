import { createMarkdownCompiler, type MarkdownOptions } from '../../src/document/markdown.ts';
import type { Block, Inline } from '../../src/document/model.ts';

const compiler = await createMarkdownCompiler();

/** Records of the invented file that the tests pretend to have. */
const recordIds = new Set(['VP-09A', 'DI-09', 'UN-01']);

const defaults: MarkdownOptions = {
  file: 'documents/doc-03.md',
  firstLine: 1,
  expandView: (name, yamlText) => [{ kind: 'paragraph', children: [text(`view ${name}: ${yamlText}`)] }],
  inlineValue: (name, label, attributes) =>
    name === 'value' || name === 'phrase'
      ? [text(`${name}(${label})${Object.keys(attributes).length > 0 ? JSON.stringify(attributes) : ''}`)]
      : undefined,
  isRecordId: (id) => recordIds.has(id),
  recordIdPattern: /\b(?:UN|DI|VP|VR)-\d+[A-Z]?\b/u,
};

/** Compiles with the defaults of these tests. */
export function compile(body: string, options: Partial<MarkdownOptions> = {}) {
  return compiler(body, { ...defaults, ...options });
}

export function text(
  value: string,
  marks: Partial<Omit<Extract<Inline, { kind: 'text' }>, 'kind'>> = {},
): Inline {
  return { kind: 'text', value, ...marks };
}

export function paragraph(...children: readonly (string | Inline)[]): Block {
  return {
    kind: 'paragraph',
    children: children.map((child) => (typeof child === 'string' ? text(child) : child)),
  };
}

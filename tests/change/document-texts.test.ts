import { expect, test } from 'vitest';
import { documentTexts } from '../../src/change/document-texts.ts';
import { sampleDocument } from '../writers/sample-document.ts';

test('a figure whose numbers changed changes the text of its document', () => {
  const text = (alternative: string): string | undefined =>
    documentTexts([
      {
        ...sampleDocument,
        blocks: sampleDocument.blocks.map((block) =>
          block.kind === 'figure' ? { ...block, alternative } : block,
        ),
      },
    ]).get(sampleDocument.id)?.text;
  expect(sampleDocument.blocks.some((block) => block.kind === 'figure')).toBe(true);
  expect(text('smallest 30.1 N')).toBe(text('smallest 30.1 N'));
  expect(text('smallest 30.1 N')).not.toBe(text('smallest 29.8 N'));
});

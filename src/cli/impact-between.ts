import { documentTexts } from '../change/document-texts.ts';
import { assessImpact, type Impact } from '../change/impact.ts';
import type { Analysis } from '../pipeline.ts';
import { documentsOf } from './documents.ts';
import type { OpenedState } from './states.ts';

/** Documents as they read without the notice that findings stand, which says nothing about the device. */
const textsOf = async (analysis: Analysis) =>
  documentTexts((await documentsOf({ ...analysis, findings: [] })).map((compiled) => compiled.document));

/** What the way from one state of a technical file to another means for what rests on it. */
export const impactBetween = async (
  before: OpenedState,
  after: OpenedState,
  { isShallow }: { readonly isShallow: boolean },
): Promise<Impact> =>
  assessImpact({
    before: before.analysis,
    after: after.analysis,
    beforeName: before.name,
    afterName: after.name,
    textsBefore: await textsOf(before.analysis),
    textsAfter: await textsOf(after.analysis),
    unseen: [
      ...(isShallow
        ? ['what happened before the first commit of this clone, which holds only the latest ones']
        : []),
      ...before.unseen,
      ...after.unseen,
    ],
  });

import type { Block } from '../document/model.ts';
import type { SitePage, SitePart } from '../document/site.ts';
import { currentDesignPlans } from '../evidence/gates.ts';
import { text } from '../views/cells.ts';
import { gateReadiness } from '../views/gate-readiness.ts';
import { idAndTitle, pageLink, type SiteContext } from './site-context.ts';

const drawn = (parts: readonly string[], context: SiteContext): readonly Block[] =>
  gateReadiness.draw({ parts }, context.view).blocks;

/** Whether the file plans gates: without a plan there is no page of them. */
export const hasPlan = ({ graph }: SiteContext): boolean => currentDesignPlans(graph).length > 0;

/** Readiness by gate, for the first page. */
export const gateParts = (context: SiteContext): readonly SitePart[] =>
  hasPlan(context)
    ? [
        {
          kind: 'section',
          id: 'gates',
          title: 'Gates',
          parts: [
            { kind: 'blocks', blocks: drawn(['gates'], context) },
            {
              kind: 'words',
              look: 'quiet',
              children: [
                text('What each gate asks for, and what the records say of it today: '),
                pageLink('plan.html', text('plan and gates')),
                text('.'),
              ],
            },
          ],
        },
      ]
    : [];

/** Stages, gates and their conditions, as planned, as the reviews found them and as the records are today. */
export const planPage = (context: SiteContext): SitePage => ({
  path: 'plan.html',
  title: 'Plan and gates',
  under: 'plan.html',
  parts: [
    {
      kind: 'words',
      look: 'lead',
      children: [
        text('The gates of '),
        ...currentDesignPlans(context.graph).flatMap((plan, index) => [
          ...(index === 0 ? [] : [text(', ')]),
          ...idAndTitle(plan),
        ]),
        text('. A review passes a gate; records can only say what stands in the way.'),
      ],
    },
    {
      kind: 'section',
      id: 'readiness',
      title: 'Readiness',
      parts: [{ kind: 'blocks', blocks: drawn(['gates', 'figure'], context) }],
    },
    {
      kind: 'section',
      id: 'conditions',
      title: 'Conditions',
      parts: [{ kind: 'blocks', blocks: drawn(['conditions'], context) }],
    },
    {
      kind: 'section',
      id: 'stages',
      title: 'Stages',
      parts: [{ kind: 'blocks', blocks: drawn(['stages'], context) }],
    },
  ],
});

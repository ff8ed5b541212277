import type { SiteInline, SitePage } from '../document/site.ts';
import type { Finding } from '../findings/finding.ts';
import { text } from '../views/cells.ts';
import { allFindings, pageLink, type SiteContext } from './site-context.ts';

/** Errors that are named on the page itself. */
const mostNamed = 5;

const placed = ({ place: { file, line, column }, message }: Finding): readonly SiteInline[] => [
  text(`${file}:${line}:${column}`, { code: true }),
  text(`: ${message}.`),
];

/** What stands in place of a page that there is not: the errors that may be the reason, and ways on. */
export const missingPage = (path: string, context: SiteContext): SitePage => {
  const errors = allFindings(context).filter((finding) => finding.level === 'error');
  return {
    path,
    title: 'There is no such page',
    under: '',
    parts: [
      {
        kind: 'words',
        look: 'lead',
        children: [
          text(
            'No record, document or table of this technical file has this address. It may be written wrongly, ',
          ),
          text('or the record may be gone, have another id, or not be readable now.'),
        ],
      },
      ...(errors.length === 0
        ? []
        : [
            {
              kind: 'site-notice',
              tone: 'bad',
              lines: [
                ...errors.slice(0, mostNamed).map(placed),
                ...(errors.length > mostNamed
                  ? [[text(`And ${errors.length - mostNamed} more errors.`)]]
                  : []),
              ],
            } as const,
          ]),
      {
        kind: 'words',
        children: [
          pageLink('findings.html', text('All findings')),
          text(', '),
          pageLink('records.html', text('all records')),
          text(', '),
          pageLink('index.html', text('overview')),
          text('.'),
        ],
      },
    ],
  };
};

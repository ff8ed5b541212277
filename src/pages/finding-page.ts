import { checks } from '../checks/index.ts';
import { markdownCodes } from '../document/markdown-findings.ts';
import type { Block } from '../document/model.ts';
import type { SiteInline, SitePage } from '../document/site.ts';
import { evidenceCodes } from '../evidence/evidence-findings.ts';
import type { Explanation } from '../findings/explanation.ts';
import type { Finding } from '../findings/finding.ts';
import { waiverCodes } from '../findings/waiver-idle.ts';
import { readingCodes } from '../records/reading-findings.ts';
import { text } from '../views/cells.ts';
import { documentCodes } from '../views/document-findings.ts';
import { allFindings, mark, type SiteContext } from './site-context.ts';

/** What each finding code means. */
const explanations: ReadonlyMap<string, Pick<Explanation, 'title' | 'explain'>> = new Map([
  ...[readingCodes, evidenceCodes, markdownCodes, documentCodes, waiverCodes].flatMap(
    (codes: Readonly<Record<string, Explanation>>) => Object.entries(codes),
  ),
  ...checks.map((check) => [check.code, check] as const),
]);

/** Code spans of an explanation; it holds no other marks. */
const explained = (words: string): readonly Block[] =>
  words.split(/\n\n+/).map((paragraph) => ({
    kind: 'paragraph',
    children: paragraph
      .split('`')
      .map((piece, index) => text(piece, index % 2 === 1 ? { code: true } : {}))
      .filter((piece) => piece.value !== ''),
  }));

const place = ({ place: { file, line, column } }: Finding): string => `${file}:${line}:${column}`;

/** The finding's record, and the words of its message. */
const about = (finding: Finding): readonly SiteInline[] => {
  const [id] = finding.records;
  return id === undefined ? [text('–')] : [{ kind: 'record-reference', id }];
};

/** Every finding that stands, what was accepted by waiver, and what each code means. */
export const findingPage = (context: SiteContext): SitePage => {
  const { waived, asOf } = context;
  const all = allFindings(context);
  const codes = [...new Set([...all, ...waived.map((each) => each.finding)].map(({ code }) => code))].sort();
  return {
    path: 'findings.html',
    title: 'Findings',
    under: 'findings.html',
    parts: [
      {
        kind: 'words',
        look: 'lead',
        children: [
          text(
            all.length === 0
              ? `No finding stands as of ${asOf}. That says that the checks found nothing, not that nothing is wrong.`
              : `${all.length} finding${all.length === 1 ? '' : 's'} stand${all.length === 1 ? 's' : ''} as of ${asOf}.`,
          ),
        ],
      },
      {
        kind: 'grid',
        id: 'findings',
        caption: 'Findings that stand',
        whenEmpty: 'None.',
        columns: [
          { title: 'Level', width: 10, isChoice: true },
          { title: 'Record', width: 12 },
          { title: 'Finding', width: 40 },
          { title: 'What to do', width: 30 },
          { title: 'Code', width: 18, isChoice: true },
          { title: 'Place', width: 20, isHidden: true },
        ],
        rows: all.map((finding) => ({
          cells: [
            [mark(finding.level)],
            about(finding),
            [text(finding.message)],
            [text(finding.hint ?? '–')],
            [text(finding.code, { code: true })],
            [text(place(finding))],
          ],
        })),
      },
      ...(waived.length === 0
        ? []
        : [
            {
              kind: 'section',
              id: 'waived',
              title: 'Accepted for a time',
              parts: [
                {
                  kind: 'grid',
                  id: 'waived-findings',
                  caption: 'Findings accepted by waiver',
                  isPlain: true,
                  whenEmpty: '',
                  columns: [
                    { title: 'Level', width: 10 },
                    { title: 'Record', width: 10 },
                    { title: 'Finding', width: 34 },
                    { title: 'Reason', width: 30 },
                    { title: 'Role', width: 12 },
                    { title: 'Until', width: 12 },
                  ],
                  rows: waived.map(({ finding, waiver }) => ({
                    cells: [
                      [mark(finding.level)],
                      about(finding),
                      [text(`${finding.message} (${finding.code})`)],
                      [text(waiver.reason)],
                      [text(waiver.role)],
                      [text(waiver.expires)],
                    ],
                  })),
                },
              ],
            } as const,
          ]),
      ...codes.map(
        (code) =>
          ({
            kind: 'section',
            id: code,
            title: explanations.get(code)?.title ?? code,
            parts: [{ kind: 'blocks', blocks: explained(explanations.get(code)?.explain ?? '') }],
          }) as const,
      ),
    ],
  };
};

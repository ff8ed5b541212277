import type { Level } from '../findings/finding.ts';
import { compareFindings, isAtLeast } from '../findings/order.ts';
import { cell, notice, text } from './cells.ts';
import { type CommonOptions, captionOf, type View } from './view.ts';

const draw: View['draw'] = (body, { findings, documentFindings, asOf }) => {
  const options = body as CommonOptions & { readonly level?: Level };
  const shown = [...findings, ...documentFindings()]
    .filter((finding) => isAtLeast(finding.level, options.level ?? 'note'))
    .sort(compareFindings);
  if (shown.length === 0)
    return {
      blocks: [
        notice(
          `No finding${options.level ? ` of level ${options.level} or above` : ''} stands as of ${asOf}.`,
          'good',
        ),
      ],
    };
  return {
    blocks: [
      {
        kind: 'table',
        ...captionOf(options),
        columns: [
          { title: 'Level', width: 10 },
          { title: 'Finding', width: 20 },
          { title: 'What', width: 45 },
          { title: 'Where', width: 25 },
        ],
        rows: shown.map((finding) => ({
          cells: [
            cell(
              text(finding.level, {
                bold: true,
                tone: finding.level === 'error' ? 'bad' : finding.level === 'warning' ? 'caution' : 'quiet',
              }),
            ),
            cell(text(finding.code)),
            cell(text(finding.message)),
            cell(text(`${finding.place.file}, line ${finding.place.line}`)),
          ],
        })),
        description: 'Findings that stand, one row each.',
      },
    ],
  };
};

export const findingsView: View = { name: 'findings', draw };

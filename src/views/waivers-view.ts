import { cell, notice, text } from './cells.ts';
import { type CommonOptions, captionOf, type View } from './view.ts';

const draw: View['draw'] = (body, { waived }) => {
  if (waived.length === 0) return { blocks: [notice('No finding is waived.')] };
  return {
    blocks: [
      {
        kind: 'table',
        ...captionOf(body as CommonOptions),
        columns: [
          { title: 'Finding', width: 22 },
          { title: 'Record', width: 12 },
          { title: 'Reason', width: 40 },
          { title: 'Accepted by', width: 16 },
          { title: 'Until', width: 12 },
        ],
        rows: waived.map(({ finding, waiver }) => ({
          cells: [
            cell(text(finding.code)),
            cell({ kind: 'record-reference', id: waiver.record }),
            cell(text(waiver.reason)),
            cell(text(`${waiver.role}, ${waiver.date}`)),
            cell(text(waiver.expires)),
          ],
        })),
        description: 'Findings that people have accepted for a time.',
      },
    ],
  };
};

export const waiversView: View = { name: 'waivers', draw };

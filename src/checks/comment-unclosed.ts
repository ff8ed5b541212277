import { proseOnly } from '../records/prose.ts';
import { placeInBody } from '../records/record.ts';
import { defineCheck } from './check.ts';

const opening = '<!--';

export const commentUnclosed = defineCheck({
  code: 'comment-unclosed',
  level: 'error',
  title: 'A remark is opened and not closed',
  basis: 'CommonMark 0.31.2, section 4.6: an HTML block that begins a comment runs to the end of the text',
  explain:
    'A remark begins with `<!--` and ends with `-->`. Without its end, all that follows in the text belongs to it: sections, tables and views are in no document, and nobody sees that they are missing.\n\nClose the remark. For the characters themselves, put a backslash before them or write them as code.',
  examines: 'records with a text',
  subjects: ({ graph }) =>
    [...graph.records.values()].filter((record) => record.status !== 'retired' && record.body.trim() !== ''),
  judge: (record) => {
    const prose = proseOnly(record.body);
    const offset = prose.indexOf(opening);
    if (offset === -1 || prose[offset - 1] === '\\') return [];
    return [
      {
        place: placeInBody(record, offset, opening.length),
        message: `the remark that ${record.id} opens here has no end, and hides all that follows`,
        hint: 'End it with "-->".',
        records: [record.id],
      },
    ];
  },
});
